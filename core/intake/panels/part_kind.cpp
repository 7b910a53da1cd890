#include "core/intake/panels/part_kind.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

// Enumerators of IfcMemberTypeEnum, IfcPlateTypeEnum, IfcCoveringTypeEnum and IfcBuildingElementPartTypeEnum that
// panels use, and the trade's words where the standard has none (common practice).
constexpr std::array kByToken{
    std::pair{"STUD"sv, PartKind::stud},         std::pair{"POST"sv, PartKind::post},
    std::pair{"COLUMN"sv, PartKind::post},       std::pair{"PLATE"sv, PartKind::rail},
    std::pair{"RAIL"sv, PartKind::rail},         std::pair{"LINTEL"sv, PartKind::lintel},
    std::pair{"HEADER"sv, PartKind::lintel},     std::pair{"BLOCKING"sv, PartKind::blocking},
    std::pair{"NOGGING"sv, PartKind::blocking},  std::pair{"DWANG"sv, PartKind::blocking},
    std::pair{"TRIMMER"sv, PartKind::blocking},  std::pair{"SILL"sv, PartKind::blocking},
    std::pair{"BATTEN"sv, PartKind::batten},     std::pair{"COUNTERBATTEN"sv, PartKind::batten},
    std::pair{"SHEET"sv, PartKind::sheet},       std::pair{"SHEATHING"sv, PartKind::sheet},
    std::pair{"BOARD"sv, PartKind::sheet},       std::pair{"LINING"sv, PartKind::sheet},
    std::pair{"MEMBRANE"sv, PartKind::membrane}, std::pair{"INSULATION"sv, PartKind::insulation},
    std::pair{"CLADDING"sv, PartKind::cladding},
};

std::optional<PartKind> find_token(std::string_view token) {
  const auto found =
      std::find_if(kByToken.begin(), kByToken.end(), [token](const auto& entry) { return entry.first == token; });
  if (found == kByToken.end()) return std::nullopt;
  return found->second;
}

/// `JACK_STUD` and `HEAD_PLATE`: the last word says what it is, the ones before it which.
std::optional<PartKind> find_last_word(std::string_view token) {
  if (const auto whole = find_token(token)) return whole;
  const std::size_t underscore = token.rfind('_');
  return underscore == std::string_view::npos ? std::nullopt : find_token(token.substr(underscore + 1));
}

bool is_fastener(std::string_view entity) {
  return entity == "IfcMechanicalFastener" || entity == "IfcFastener" || entity == "IfcDiscreteAccessory";
}

}  // namespace

PartKind part_kind(std::string_view entity, std::string_view token) {
  if (is_fastener(entity)) return PartKind::fastener;
  const bool is_plate = entity == "IfcPlate" || entity == "IfcPlateStandardCase";
  // IfcPlate is a flat board whatever its type says; PLATE of an IfcMember is the head or sole plate of a frame.
  if (is_plate) return token == "CURTAIN_PANEL" ? PartKind::other : PartKind::sheet;
  if (const auto kind = find_last_word(token)) return *kind;
  return entity == "IfcColumn" ? PartKind::post : PartKind::other;
}

}  // namespace panel_dossier
