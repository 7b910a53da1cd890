#include "core/intake/records/batch_register.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kOccurrence = "Pset_ManufacturerOccurrence";
constexpr std::string_view kBatchReference = "BatchReference";
constexpr const char* kBatchReferenceName = "Pset_ManufacturerOccurrence.BatchReference";
constexpr std::string_view kSupplySet = "Panel_Supply";

/// The text of a property, also of one that is withheld; empty where there is none.
std::string text_also_withheld(const Properties& properties, const std::string& full_name) {
  const auto text_in = [](const Property& property) {
    const auto* text = std::get_if<std::string>(&property.value);
    return text == nullptr ? std::string() : std::string(trimmed(*text));
  };
  if (const auto used = properties.all().find(full_name); used != properties.all().end()) return text_in(used->second);
  const auto withheld = properties.withheld().find(full_name);
  return withheld == properties.withheld().end() ? std::string() : text_in(withheld->second.property);
}

std::string material_name(const Project& project, const Part& part) {
  const Material* material = material_at(project, part.material);
  return material == nullptr ? std::string() : material->name;
}

bool has_material(const Project& project, const std::string& name) {
  return std::any_of(project.materials.begin(), project.materials.end(),
                     [&](const Material& material) { return material.name == name; });
}

/// The rows of `deliveries` that bring material, by number of the delivery note.
class MaterialDeliveries {
 public:
  explicit MaterialDeliveries(const Project& project) {
    for (const PanelRecord& record : project.records) {
      if (record.table == "deliveries") rows_[record.words("delivery")].push_back(&record);
    }
  }

  /// The row that names this material, else one that names none; null where the note has neither.
  const PanelRecord* row_of(const std::string& number, const std::string& material) const {
    const auto found = rows_.find(number);
    if (found == rows_.end()) return nullptr;
    const PanelRecord* of_any = nullptr;
    for (const PanelRecord* record : found->second) {
      const std::string named = record->words("material");
      if (!named.empty() && named == material) return record;
      if (named.empty() && of_any == nullptr) of_any = record;
    }
    return of_any;
  }

  /// The material that all of the note is of; empty where it has several or nobody says.
  std::string only_material(const std::string& number) const {
    const auto found = rows_.find(number);
    return found == rows_.end() || found->second.size() != 1 ? std::string() : found->second.front()->words("material");
  }

 private:
  std::map<std::string, std::vector<const PanelRecord*>> rows_;
};

class BatchRecords {
 public:
  BatchRecords(Project& project, Diagnostics& diagnostics)
      : project_(project), deliveries_(project), diagnostics_(diagnostics) {}

  void apply(Panel& panel) {
    panel_ = &panel;
    std::map<std::string, std::vector<const PanelRecord*>> by_material;
    for (const PanelRecord& record : panel.records) {
      if (record.table != "batches") continue;
      if (!record.words("part").empty()) {
        apply_to_part(record);
      } else if (const std::string material = record.words("material"); !material.empty()) {
        by_material[material].push_back(&record);
      }
    }
    for (const auto& [material, rows] : by_material) apply_to_material(material, rows);
  }

 private:
  Project& project_;
  MaterialDeliveries deliveries_;
  Diagnostics& diagnostics_;
  Panel* panel_ = nullptr;
  std::set<std::string> told_;  ///< parts of one material mostly share a fault

  void warn(const PanelRecord& record, std::string message, std::string advice) {
    diagnostics_.push_back({Severity::warning,
                            record.origin.table,
                            row_number(record.origin),
                            0,
                            {},
                            panel_->global_id,
                            std::move(message),
                            std::move(advice)});
  }

  void apply_to_part(const PanelRecord& record) {
    const std::string name = record.words("part");
    const std::string material = record.words("material");
    bool is_there = false;
    for (Part& part : panel_->parts) {
      if (part.name != name || (!material.empty() && material_name(project_, part) != material)) continue;
      is_there = true;
      const std::string own = text_also_withheld(part.properties, kBatchReferenceName);
      if (!own.empty() && own != record.words("batch")) {
        contradict({&part}, record, own, record.words("batch"));
      } else {
        give(part, record);
      }
    }
    if (is_there) return;
    const std::string of_material = material.empty() ? "" : " of '" + material + "'";
    warn(record,
         "panel '" + panel_->mark + "' has no part '" + name + "'" + of_material +
             "; the batch is kept in the register, for no part",
         "write the part's name as the export has it");
  }

  void apply_to_material(const std::string& material, const std::vector<const PanelRecord*>& rows) {
    std::vector<Part*> parts;
    std::set<std::string> own;
    for (Part& part : panel_->parts) {
      if (material_name(project_, part) != material) continue;
      parts.push_back(&part);
      const std::string reference = text_also_withheld(part.properties, kBatchReferenceName);
      if (!reference.empty()) own.insert(reference);
    }
    if (parts.empty()) {
      const std::string what = has_material(project_, material)
                                   ? "panel '" + panel_->mark + "' has no part of '" + material + "'"
                                   : "the export has no material '" + material + "'";
      warn(*rows.front(), what + "; the batch is kept in the register, for no part",
           "write the material's name as the export has it");
      return;
    }
    std::set<std::string> recorded;
    for (const PanelRecord* row : rows) recorded.insert(row->words("batch"));
    const bool all_state = std::all_of(parts.begin(), parts.end(), [](const Part* part) {
      return !text_also_withheld(part->properties, kBatchReferenceName).empty();
    });
    const bool is_agreed =
        all_state ? own == recorded : std::includes(recorded.begin(), recorded.end(), own.begin(), own.end());
    if (!is_agreed) {
      contradict(parts, *rows.back(), joined({own.begin(), own.end()}), joined({recorded.begin(), recorded.end()}));
      return;
    }
    // Which of several batches a part was cut from, only a row of its own can say.
    if (recorded.size() > 1) return;
    for (Part* part : parts) give(*part, *rows.back());
  }

  void contradict(const std::vector<Part*>& parts, const PanelRecord& record, const std::string& own,
                  const std::string& recorded) {
    const Part& first = *parts.front();
    const std::string material = material_name(project_, first);
    const std::string of = parts.size() == 1 ? "part '" + first.name + "'" : "the parts of '" + material + "'";
    const std::string what = " of " + of + " of panel '" + panel_->mark + "' is '" + own + "' by the export, but '" +
                             recorded + "' by the records (" + place_in_words(record.origin) + ")";
    const std::string advice = "correct one of them";
    const std::string why = kBatchReferenceName + what + "; " + advice;
    for (Part* part : parts) part->properties.withhold(kBatchReferenceName, why);
    panel_->contradictions.emplace("batches", why);
    warn(record, "'" + std::string(kBatchReferenceName) + "'" + what + ", and is not used", advice);
  }

  /// What the row and its delivery say, where the export leaves it open.
  void give(Part& part, const PanelRecord& record) {
    add(part, kOccurrence, kBatchReference, record, "batch");
    const std::string number = record.words("delivery");
    const PanelRecord* delivery = number.empty() ? nullptr : deliveries_.row_of(number, material_name(project_, part));
    if (delivery == nullptr) return;
    add_supply(part, "DeliveryNote", delivery->text("document"), *delivery);
    const auto claim = delivery->text("claim");
    if (!claim) return;
    add_supply(part, "ChainOfCustodyClaim", claim, *delivery);
    add_supply(part, "ChainOfCustodyDocument", delivery->text("certificate"), *delivery);
    add_supply(part, "ChainOfCustodyDate", Sourced<std::string>{delivery->day, delivery->origin}, *delivery);
  }

  static void add(Part& part, std::string_view set, std::string_view name, const PanelRecord& record,
                  std::string_view column) {
    auto value = record.text(column);
    if (!value) return;
    value->origin.property = std::string(set) + "." + std::string(name);
    part.properties.add(set, name, {value->value, {}, value->origin});
  }

  /// Of the part; what the export says of it or of its material stands, and is withheld where the record says
  /// otherwise.
  void add_supply(Part& part, const std::string& name, const std::optional<Sourced<std::string>>& value,
                  const PanelRecord& record) {
    if (!value) return;
    const std::string full_name = std::string(kSupplySet) + "." + name;
    const Material* material = material_at(project_, part.material);
    std::string own = text_also_withheld(part.properties, full_name);
    if (own.empty() && material != nullptr) own = text_also_withheld(material->properties, full_name);
    if (own == value->value) return;
    Origin origin = value->origin;
    origin.property = full_name;
    part.properties.add(kSupplySet, name, {value->value, {}, std::move(origin)});
    if (own.empty()) return;
    const std::string what = " of '" + material_name(project_, part) + "' in panel '" + panel_->mark + "' is '" + own +
                             "' by the export, but '" + value->value + "' by the records (" +
                             place_in_words(record.origin) + ")";
    const std::string why = full_name + what + "; correct one of them";
    part.properties.withhold(full_name, why);
    if (!told_.insert(why).second) return;
    panel_->contradictions.emplace("batches", why);
    warn(record, "'" + full_name + "'" + what + ", and is not used", "correct one of them");
  }
};

/// A batch while it is gathered.
struct Gathered {
  std::set<std::string> kinds;
  std::set<std::string> deliveries;
  std::set<std::size_t> panels;
};

using GatheredBatches = std::map<std::pair<std::string, std::string>, Gathered>;

void gather_parts(const Project& project, std::size_t index, GatheredBatches& batches) {
  for (const Part& part : project.panels[index].parts) {
    const std::string reference = text_also_withheld(part.properties, kBatchReferenceName);
    if (reference.empty()) continue;
    const Material* material = material_at(project, part.material);
    Gathered& batch = batches[{reference, material == nullptr ? std::string() : material->name}];
    batch.panels.insert(index);
    batch.kinds.emplace(to_string(part.kind));
  }
}

void gather_records(const Project& project, std::size_t index, const MaterialDeliveries& deliveries,
                    GatheredBatches& batches) {
  for (const PanelRecord& record : project.panels[index].records) {
    if (record.table != "batches") continue;
    std::string material = record.words("material");
    const std::string number = record.words("delivery");
    if (material.empty()) material = deliveries.only_material(number);
    Gathered& batch = batches[{record.words("batch"), material}];
    batch.panels.insert(index);
    if (const std::string kind = record.words("kind"); !kind.empty()) batch.kinds.insert(kind);
    if (!number.empty()) batch.deliveries.insert(number);
  }
}

}  // namespace

void apply_batch_records(Project& project, Diagnostics& diagnostics) {
  BatchRecords records(project, diagnostics);
  for (Panel& panel : project.panels) records.apply(panel);
}

void register_batches(Project& project) {
  const MaterialDeliveries deliveries(project);
  GatheredBatches batches;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    gather_parts(project, i, batches);
    gather_records(project, i, deliveries, batches);
    project.panels[i].batches.clear();
  }
  project.batches.clear();
  for (auto& [key, gathered] : batches) {
    const std::size_t index = project.batches.size();
    for (const std::size_t panel : gathered.panels) project.panels[panel].batches.push_back(index);
    project.batches.push_back({key.first,
                               key.second,
                               {gathered.kinds.begin(), gathered.kinds.end()},
                               {gathered.deliveries.begin(), gathered.deliveries.end()},
                               {gathered.panels.begin(), gathered.panels.end()}});
  }
}

}  // namespace panel_dossier
