#include "core/api/support/fastener_kinds.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>
#include <string_view>

namespace panel_dossier {

namespace {

std::string upper_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return text;
}

}  // namespace

bool holds_panel(const Part& part) {
  constexpr std::array<std::string_view, 3> kTypes{"BRACKET", "ANCHOR", "BOLT"};
  const std::string type = upper_case(part.object_type);
  return part.kind == PartKind::fastener && !lifts_panel(part) && !ties_down(part) &&
         std::any_of(kTypes.begin(), kTypes.end(),
                     [&](std::string_view word) { return type.find(word) != std::string::npos; });
}

bool lifts_panel(const Part& part) {
  return part.kind == PartKind::fastener && upper_case(part.object_type).find("LIFTING") != std::string::npos;
}

bool ties_down(const Part& part) {
  constexpr std::array<std::string_view, 6> kTypes{"TIE_DOWN",  "TIE-DOWN",  "TIE DOWN",
                                                   "HOLD_DOWN", "HOLD-DOWN", "HOLD DOWN"};
  const std::string type = upper_case(part.object_type);
  return part.kind == PartKind::fastener && std::any_of(kTypes.begin(), kTypes.end(), [&](std::string_view word) {
           return type.find(word) != std::string::npos;
         });
}

std::vector<const Part*> fasteners_that(const Panel& panel, bool (*does)(const Part&)) {
  std::vector<const Part*> found;
  for (const Part& part : panel.parts) {
    if (does(part)) found.push_back(&part);
  }
  return found;
}

}  // namespace panel_dossier
