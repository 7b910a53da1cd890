// The members of a project in compact form: all that a check can read of it. Written only.
#pragma once

#include <string_view>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/pipeline/byte_form/finding_fields.h"

namespace panel_dossier {

template <>
inline constexpr PartKind kLastOf<PartKind> = PartKind::other;
template <>
inline constexpr EvidenceStatus kLastOf<EvidenceStatus> = EvidenceStatus::unnamed;
template <>
inline constexpr EvidenceKind kLastOf<EvidenceKind> = EvidenceKind::other;
template <>
inline constexpr NeighbourKind kLastOf<NeighbourKind> = NeighbourKind::other;

// A member that is forgotten below would let a stale result stand for a new one. A size that has changed says that the
// list of members must be looked at.
#if defined(__x86_64__) && !defined(_GLIBCXX_DEBUG)
static_assert(sizeof(Property) == 144 && sizeof(WithheldProperty) == 176 && sizeof(Properties) == 96);
static_assert(sizeof(Settings) == 96 && sizeof(Extrusion) == 152 && sizeof(Part) == 688 && sizeof(Layer) == 352);
static_assert(sizeof(Opening) == 360 && sizeof(RecordValue) == 104 && sizeof(PanelRecord) == 224);
static_assert(sizeof(StrayRecord) == 256 && sizeof(Panel) == 904 && sizeof(Material) == 296);
static_assert(sizeof(Evidence) == 592 && sizeof(Storey) == 256 && sizeof(Neighbour) == 368 && sizeof(Delivery) == 168);
static_assert(sizeof(MaterialBatch) == 136 && sizeof(Party) == 232 && sizeof(Project) == 632 && sizeof(Origin) == 72);
#endif

template <typename T>
void fields(ByteWriter& writer, const Sourced<T>& sourced) {
  writer(sourced.value, sourced.origin);
}

inline void fields(ByteWriter& writer, const Property& property) {
  writer(property.value, property.unit, property.origin);
}

inline void fields(ByteWriter& writer, const WithheldProperty& withheld) {
  writer(withheld.property, withheld.why);
}

/// Parts are weighed by whatever quantity set states a weight (`take_off`), of which no declaration can name them all.
inline bool is_weight(std::string_view name) {
  return name.ends_with("Weight");
}

/// Each one that the writer takes behind a yes, and a no at the end.
void write_taken(ByteWriter& writer, const auto& properties) {
  for (const auto& [name, property] : properties) {
    if (is_weight(name) || writer.takes_property(name)) writer(true, name, property);
  }
  writer(false);
}

inline void fields(ByteWriter& writer, const Properties& properties) {
  write_taken(writer, properties.all());
  write_taken(writer, properties.withheld());
}

inline void fields(ByteWriter& writer, const Settings& settings) {
  writer(settings.all(), settings.withheld());
}

inline void fields(ByteWriter& writer, const Vec3& point) {
  writer(point.x, point.y, point.z);
}

inline void fields(ByteWriter& writer, const Frame& frame) {
  writer(frame.origin, frame.x_axis, frame.y_axis, frame.z_axis);
}

inline void fields(ByteWriter& writer, const Box3& box) {
  writer(box.min, box.max);
}

inline void fields(ByteWriter& writer, const Extrusion& solid) {
  writer(solid.outline, solid.frame, solid.direction, solid.depth_m);
}

inline void fields(ByteWriter& writer, const Part& part) {
  writer(part.global_id, part.name, part.object_type, part.kind, part.material, part.solid, part.bounds, part.volume_m3,
         part.length_m, part.count, part.properties, part.origin);
}

inline void fields(ByteWriter& writer, const Layer& layer) {
  writer(layer.name, layer.category, layer.material, layer.thickness_m, layer.y_inside_m, layer.y_outside_m,
         layer.is_ventilated, layer.properties, layer.origin);
}

inline void fields(ByteWriter& writer, const Opening& opening) {
  writer(opening.global_id, opening.name, opening.x_min_m, opening.x_max_m, opening.z_min_m, opening.z_max_m,
         opening.filling_entity, opening.filling_global_id, opening.filling_name, opening.filling_properties,
         opening.origin);
}

inline void fields(ByteWriter& writer, const RecordValue& value) {
  writer(value.column, value.value, value.unit);
}

inline void fields(ByteWriter& writer, const PanelRecord& record) {
  writer(record.table, record.day, record.what, record.by, record.values, record.origin);
}

inline void fields(ByteWriter& writer, const StrayRecord& stray) {
  writer(stray.key, stray.record);
}

/// What there is of a panel to touch: neither its own properties and documents nor what workshop and site wrote down.
struct PanelBody {
  const Panel& panel;
};

inline void fields(ByteWriter& writer, const PanelBody& body) {
  const Panel& panel = body.panel;
  writer(panel.global_id, panel.mark, panel.name, panel.type, panel.building, panel.storey, panel.frame, panel.width_m,
         panel.height_m, panel.thickness_m, panel.outside_known, panel.layers, panel.parts, panel.openings,
         panel.origin);
}

/// A panel but for what workshop and site wrote down of it.
struct PanelModel {
  const Panel& panel;
};

inline void fields(ByteWriter& writer, const PanelModel& model) {
  const Panel& panel = model.panel;
  writer(PanelBody{panel}, panel.classifications, panel.evidence, panel.properties, panel.contradictions);
}

inline void fields(ByteWriter& writer, const Panel& panel) {
  writer(PanelModel{panel}, panel.records, panel.batches);
}

inline void fields(ByteWriter& writer, const Material& material) {
  writer(material.name, material.category, material.classification, material.article_number, material.properties,
         material.origin);
}

/// Without the folder, as in a project: where the files lie says nothing of what they hold, and that stands apart.
inline void fields(ByteWriter& writer, const Evidence& evidence) {
  writer(evidence.id, evidence.name, evidence.location, evidence.status, evidence.origin, evidence.kind,
         evidence.number, evidence.issuer, evidence.standard, evidence.issued, evidence.expires, evidence.subject,
         evidence.scope, evidence.sponsor, evidence.permission, evidence.countries, evidence.sha256, evidence.faults);
}

inline void fields(ByteWriter& writer, const Storey& storey) {
  writer(storey.global_id, storey.name, storey.building, storey.elevation_m, storey.origin);
}

inline void fields(ByteWriter& writer, const Neighbour& neighbour) {
  writer(neighbour.kind, neighbour.entity, neighbour.global_id, neighbour.name, neighbour.storey, neighbour.bounds,
         neighbour.thickness_m, neighbour.material, neighbour.origin);
}

inline void fields(ByteWriter& writer, const Delivery& delivery) {
  writer(delivery.number, delivery.day, delivery.supplier, delivery.origin);
}

inline void fields(ByteWriter& writer, const MaterialBatch& batch) {
  writer(batch.reference, batch.material, batch.kinds, batch.deliveries, batch.panels);
}

inline void fields(ByteWriter& writer, const Party& party) {
  writer(party.role, party.name, party.organisation, party.address, party.contact, party.origin);
}

/// What a project holds beside its panels, and the registers apart: they change with every row from workshop and site.
struct Building {
  const Project& project;
};
struct Registers {
  const Project& project;
};

inline void fields(ByteWriter& writer, const Building& building) {
  const Project& project = building.project;
  writer(project.global_id, project.name, project.description, project.phase, project.site_name, project.buildings,
         project.true_north_rad, project.storeys, project.materials, project.evidence, project.neighbours,
         project.properties, project.parties, project.origin);
}

inline void fields(ByteWriter& writer, const Registers& registers) {
  const Project& project = registers.project;
  writer(project.deliveries, project.batches, project.records, project.stray_records);
}

}  // namespace panel_dossier
