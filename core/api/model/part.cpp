#include "core/api/model/part.h"

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Part::Part() = default;
Part::Part(const Part&) = default;
Part::Part(Part&&) noexcept = default;
Part& Part::operator=(const Part&) = default;
Part& Part::operator=(Part&&) noexcept = default;
Part::~Part() = default;

std::string_view to_string(PartKind kind) {
  switch (kind) {
    case PartKind::stud: return "stud";
    case PartKind::post: return "post";
    case PartKind::rail: return "rail";
    case PartKind::lintel: return "lintel";
    case PartKind::blocking: return "blocking";
    case PartKind::batten: return "batten";
    case PartKind::sheet: return "sheet";
    case PartKind::membrane: return "membrane";
    case PartKind::insulation: return "insulation";
    case PartKind::cladding: return "cladding";
    case PartKind::fastener: return "fastener";
    case PartKind::other: break;
  }
  return "other";
}

bool is_framing(PartKind kind) {
  return kind == PartKind::stud || kind == PartKind::post || kind == PartKind::rail || kind == PartKind::lintel ||
         kind == PartKind::blocking || kind == PartKind::batten;
}

}  // namespace panel_dossier
