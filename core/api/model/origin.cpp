#include "core/api/model/origin.h"

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Origin::Origin() = default;
Origin::Origin(const Origin&) = default;
Origin::Origin(Origin&&) noexcept = default;
Origin& Origin::operator=(const Origin&) = default;
Origin& Origin::operator=(Origin&&) noexcept = default;
Origin::~Origin() = default;

std::string describe(const Origin& origin) {
  switch (origin.kind) {
    case OriginKind::data_table:
      return origin.table + ", row '" + origin.row + "'" + (origin.source.empty() ? "" : " (" + origin.source + ")");
    case OriginKind::input_table:
      return origin.table + ", row " + origin.row + (origin.property.empty() ? "" : ", " + origin.property) +
             (origin.source.empty() ? "" : " (" + origin.source + ")");
    case OriginKind::setting: return "setting '" + origin.key + "'";
    case OriginKind::export_file: break;
  }
  std::string text = origin.entity.empty() ? "export" : origin.entity;
  if (!origin.property.empty()) text += " " + origin.property;
  if (!origin.global_id.empty()) text += ", " + origin.global_id;
  if (origin.line != 0) text += ", line " + std::to_string(origin.line);
  return text;
}

}  // namespace panel_dossier
