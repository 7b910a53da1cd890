#include "core/dossier/guidance/subjects.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <set>
#include <tuple>
#include <utility>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kInsulation = "insulation";

void put(Subject& subject, std::string key, std::string value) {
  if (!value.empty()) subject.facts[std::move(key)] = {std::move(value)};
}

void put_panel(Subject& subject, std::size_t panel) {
  if (subject.panels.empty() || subject.panels.back() != panel) subject.panels.push_back(panel);
}

void put_maker(Subject& subject, const Project& project, const Properties& properties) {
  const auto maker = properties.text("Pset_ManufacturerTypeInformation", "Manufacturer");
  if (!maker) return;
  put(subject, "product.maker", maker->value);
  put(subject, "product.contact", contact_of(project, maker->value));
}

void put_product(Subject& subject, const Project& project, const Material* material) {
  if (material == nullptr) return;
  put(subject, "product.name", material->name);
  put(subject, "product.category", material->category);
  put_maker(subject, project, material->properties);
  if (const auto years = material->properties.number("Panel_Supply", "ServiceLife"))
    put(subject, "product.service_life_years", format_significant(years->value));
  subject.properties.push_back(&material->properties);
}

/// `BRACKET`, `CAVITY_BARRIER`, `LIFTING LOOP` in words.
std::string kind_in_words(const Part& part) {
  std::string words = lower_case(part.object_type);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string fixing_name(const Part& part) {
  const auto type = part.properties.text("Panel_Fastener", "Type");
  if (type) return type->value;
  return part.name.empty() ? kind_in_words(part) : part.name;
}

/// First and last layer of insulation; none where there is no insulation.
std::optional<std::pair<std::size_t, std::size_t>> core_of(const Panel& panel) {
  std::optional<std::pair<std::size_t, std::size_t>> found;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    if (panel.layers[i].category != kInsulation) continue;
    found = found ? std::pair(found->first, i) : std::pair(i, i);
  }
  return found;
}

std::string position_of(const Panel& panel, std::size_t layer) {
  if (const auto core = core_of(panel)) {
    if (layer < core->first) return "inside";
    return layer > core->second ? "outside" : "core";
  }
  const Layer& one = panel.layers[layer];
  return (one.y_inside_m + one.y_outside_m) / 2.0 < panel.thickness_m.value / 2.0 ? "inside" : "outside";
}

std::string face_of(const Panel& panel, std::size_t layer) {
  if (layer == 0) return "inner";
  return layer + 1 == panel.layers.size() ? "outer" : "none";
}

/// A tenth of a millimetre: what thicknesses are told apart by.
long tenths(double length_m) {
  return std::lround(length_m * 1e4);
}

/// Name, category, material, thickness in tenths of a millimetre and whether it is ventilated: what layers are told
/// apart by.
using LayerKey = std::tuple<std::string, std::string, std::optional<std::size_t>, long, std::optional<bool>>;

std::string material_in_key(const Part& part) {
  return part.material ? std::to_string(*part.material) : std::string();
}

/// Gathers subjects of which many panels have the same.
class SubjectGatherer {
 public:
  SubjectGatherer(const Project& project, const Settings& settings, const ResultsDocument& results)
      : project_(project), settings_(settings), results_(results) {}

  Subjects gather() {
    add_project();
    for (std::size_t i = 0; i < project_.panels.size(); ++i) {
      add_panel(i);
      add_build_up(i);
      for (const Part& part : project_.panels[i].parts) add_part(i, part);
      for (const Opening& opening : project_.panels[i].openings) add_opening(i, opening);
    }
    return std::move(subjects_);
  }

 private:
  const Project& project_;
  const Settings& settings_;
  const ResultsDocument& results_;
  Subjects subjects_;
  std::map<std::size_t, std::size_t> products_;  ///< by material
  std::map<std::tuple<int, std::string, std::string>, std::size_t> kinds_;
  std::map<std::vector<LayerKey>, std::size_t> build_ups_;

  Subject& subject_of(SubjectKind kind, const std::string& name, const std::string& further, bool& is_new) {
    const auto [found, added] = kinds_.try_emplace({static_cast<int>(kind), name, further}, subjects_.all.size());
    is_new = added;
    if (added) subjects_.all.push_back({kind, name, {}});
    return subjects_.all[found->second];
  }

  void add_project() {
    Subject subject{SubjectKind::project, "the project", {}};
    for (std::size_t i = 0; i < project_.panels.size(); ++i) subject.panels.push_back(i);
    put(subject, "project.panels", std::to_string(project_.panels.size()));
    std::optional<double> heaviest_kg;
    for (const PanelSummary& panel : results_.panels) {
      const auto mass_kg = number_of_role(panel, role::kMass);
      if (mass_kg && (!heaviest_kg || *mass_kg > *heaviest_kg)) heaviest_kg = mass_kg;
    }
    if (heaviest_kg) put(subject, "project.heaviest_kg", format_fixed(*heaviest_kg, 0));
    if (const auto highest_m = highest_edge_m()) put(subject, "project.highest_m", format_fixed(*highest_m, 1));
    subject.properties.push_back(&project_.properties);
    subjects_.all.push_back(std::move(subject));
  }

  std::optional<double> highest_edge_m() const {
    std::optional<std::pair<double, double>> range;
    for (const Panel& panel : project_.panels) {
      const Box3 box = panel.world_bounds();
      range = range ? std::pair(std::min(range->first, box.min.z), std::max(range->second, box.max.z))
                    : std::pair(box.min.z, box.max.z);
    }
    if (!range) return std::nullopt;
    return range->second - range->first;
  }

  std::optional<double> number_of_role(const PanelSummary& panel, std::string_view role) const {
    const RecordedFinding* finding = finding_of_role(results_.build, panel.findings, role);
    const double* value = finding == nullptr ? nullptr : std::get_if<double>(&finding->value);
    return value == nullptr ? std::nullopt : std::optional(*value);
  }

  void add_panel(std::size_t index) {
    const Panel& panel = project_.panels[index];
    Subject subject{SubjectKind::panel, panel.mark, {index}};
    put(subject, "panel.type", panel.type);
    put(subject, "panel.width_m", format_fixed(panel.width_m.value, 2));
    put(subject, "panel.height_m", format_fixed(panel.height_m.value, 2));
    put(subject, "panel.thickness_mm", format_millimetres(panel.thickness_m.value));
    if (const auto mass_kg = number_of_role(results_.panels[index], role::kMass))
      put(subject, "panel.mass_kg", format_fixed(*mass_kg, 0));
    if (const auto hook_kg = number_of_role(results_.panels[index], role::kHookLoad))
      put(subject, "panel.hook_kg", format_fixed(*hook_kg, 0));
    put(subject, "panel.stud_middles_mm", stud_middles(panel));
    if (const auto bears = panel.load_bearing()) put(subject, "panel.load_bearing", bears->value ? "yes" : "no");
    for (const Layer& layer : panel.layers) put_once(subject, "panel.functions", layer.category);
    for (const Opening& opening : panel.openings) put_once(subject, "panel.openings", opening_kind(opening));
    if (const auto day = panel.properties.text("Panel_Install", "Date")) put(subject, "panel.installed", day->value);
    subject.properties.push_back(&panel.properties);
    subjects_.all.push_back(std::move(subject));
  }

  static std::string stud_middles(const Panel& panel) {
    constexpr double kHalfUp = 1e-6;  // so that every half of a millimetre is rounded the same way
    std::set<long> middles_mm;
    for (const Part& part : panel.parts) {
      if ((part.kind != PartKind::stud && part.kind != PartKind::post) || !part.bounds) continue;
      middles_mm.insert(std::lround((part.bounds->min.x + part.bounds->max.x) * 500.0 + kHalfUp));
    }
    std::vector<std::string> texts;
    texts.reserve(middles_mm.size());
    for (const long middle : middles_mm) texts.push_back(std::to_string(middle));
    return joined(texts);
  }

  void add_build_up(std::size_t index) {
    const Panel& panel = project_.panels[index];
    if (panel.layers.empty()) return;
    std::vector<LayerKey> key;
    for (const Layer& layer : panel.layers)
      key.emplace_back(layer.name, layer.category, layer.material, tenths(layer.thickness_m.value),
                       layer.is_ventilated);
    const auto [found, is_new] = build_ups_.try_emplace(std::move(key), subjects_.build_ups.size());
    if (is_new) {
      BuildUp build_up;
      for (std::size_t i = 0; i < panel.layers.size(); ++i) build_up.subjects.push_back(add_layer(panel, i));
      subjects_.build_ups.push_back(std::move(build_up));
    }
    BuildUp& build_up = subjects_.build_ups[found->second];
    build_up.panels.push_back(index);
    if (std::find(build_up.types.begin(), build_up.types.end(), panel.type) == build_up.types.end())
      build_up.types.push_back(panel.type);
    for (std::size_t i = 0; i < panel.layers.size(); ++i) {
      Subject& layer = subjects_.all[build_up.subjects[i]];
      put_panel(layer, index);
      if (!is_new) layer.properties_of_others.push_back(&panel.layers[i].properties);
      if (panel.layers[i].material)
        put_once(product(*panel.layers[i].material, index), "product.functions", panel.layers[i].category);
    }
  }

  std::size_t add_layer(const Panel& panel, std::size_t index) {
    const Layer& layer = panel.layers[index];
    Subject subject{SubjectKind::layer, name_of_layer(project_, layer), {}};
    put(subject, "layer.name", layer.name);
    put(subject, "layer.function", layer.category);
    put(subject, "layer.position", position_of(panel, index));
    put(subject, "layer.face", face_of(panel, index));
    put(subject, "layer.thickness_mm", format_millimetres(layer.thickness_m.value));
    put(subject, "layer.depth_mm", format_millimetres(layer.y_inside_m));
    if (layer.is_ventilated) put(subject, "layer.ventilated", *layer.is_ventilated ? "yes" : "no");
    subject.properties.push_back(&layer.properties);
    put_product(subject, project_, material_at(project_, layer.material));
    subjects_.all.push_back(std::move(subject));
    return subjects_.all.size() - 1;
  }

  Subject& product(std::size_t material, std::size_t panel) {
    const auto [found, is_new] = products_.try_emplace(material, subjects_.all.size());
    if (is_new) {
      subjects_.all.push_back({SubjectKind::product, project_.materials[material].name, {}});
      put_product(subjects_.all.back(), project_, &project_.materials[material]);
    }
    Subject& subject = subjects_.all[found->second];
    put_panel(subject, panel);
    return subject;
  }

  void add_part(std::size_t panel, const Part& part) {
    if (part.material) put_once(product(*part.material, panel), "product.parts", std::string(to_string(part.kind)));
    if (part.kind != PartKind::fastener) return;
    if (is_lifting_point(part)) {
      add_lifting(panel, part);
      return;
    }
    bool is_new = false;
    Subject& subject =
        subject_of(SubjectKind::fixing, fixing_name(part), kind_in_words(part) + "\n" + material_in_key(part), is_new);
    if (is_new) {
      put(subject, "fixing.name", subject.name);
      put(subject, "fixing.kind", kind_in_words(part));
      subject.properties.push_back(&part.properties);
      put_product(subject, project_, material_at(project_, part.material));
      put_maker(subject, project_, part.properties);  // nearer than that of the steel it is made of
    } else {
      subject.properties_of_others.push_back(&part.properties);
    }
    const auto before = subject.facts.find("fixing.pieces");
    const double pieces = before == subject.facts.end() ? 0.0 : parse_decimal(before->second.front()).value_or(0.0);
    put(subject, "fixing.pieces", format_fixed(pieces + part.count, 0));
    put_panel(subject, panel);
  }

  void add_lifting(std::size_t index, const Part& part) {
    const Panel& panel = project_.panels[index];
    const LiftingReuse reuse = lifting_reuse(project_, settings_, panel, part);
    const std::vector<std::string> certificates = lifting_certificates(project_, settings_, panel, part);
    const auto load_n = part.properties.number("Panel_Fastener", "WorkingLoadLimit");
    const std::string load_kn = load_n ? format_significant(load_n->value / 1000.0) : std::string();
    bool is_new = false;
    // What one panel has a paper for says nothing of points of the same name in another.
    Subject& subject = subject_of(
        SubjectKind::lifting, fixing_name(part),
        joined({std::to_string(static_cast<int>(reuse)), load_kn, material_in_key(part), joined(certificates)}, "\n"),
        is_new);
    if (is_new) {
      put(subject, "lifting.name", subject.name);
      if (reuse != LiftingReuse::not_shown)
        put(subject, "lifting.reuse", reuse == LiftingReuse::certified ? "certified" : "single use");
      put(subject, "lifting.load_kn", load_kn);
      for (const std::string& id : certificates) put_once(subject, "lifting.certificate", id);
      subject.properties.push_back(&part.properties);
      put_product(subject, project_, material_at(project_, part.material));
      put_maker(subject, project_, part.properties);
    } else {
      subject.properties_of_others.push_back(&part.properties);
    }
    put_panel(subject, index);
  }

  static std::string opening_kind(const Opening& opening) {
    if (opening.filling_entity == "IfcWindow") return "window";
    return opening.filling_entity == "IfcDoor" ? "door" : "opening";
  }

  void add_opening(std::size_t panel, const Opening& opening) {
    bool is_new = false;
    const std::string kind = opening_kind(opening);
    Subject& subject =
        subject_of(SubjectKind::opening, opening.filling_name.empty() ? kind : opening.filling_name, kind, is_new);
    if (is_new) {
      put(subject, "opening.name", subject.name);
      put(subject, "opening.kind", kind);
      subject.properties.push_back(&opening.filling_properties);
      put_maker(subject, project_, opening.filling_properties);
    } else {
      subject.properties_of_others.push_back(&opening.filling_properties);
    }
    put_panel(subject, panel);
  }
};

/// What the document says it is of, in lower case.
std::string words_of(const Evidence& document) {
  return lower_case(document.name + "\n" + document.subject + "\n" + document.scope);
}

bool speaks_of_single_use(const Evidence& document) {
  const std::string words = words_of(document);
  return words.find("single use") != std::string::npos || words.find("single-use") != std::string::npos;
}

/// Length of the longest name of the point that stands in the words; 0 where none does.
std::size_t named_in(const std::string& words, const Part& point) {
  std::size_t longest = 0;
  for (const std::string& name : {fixing_name(point), point.name}) {
    const std::string word = lower_case(trimmed(name));
    if (!word.empty() && words.find(word) != std::string::npos) longest = std::max(longest, word.size());
  }
  return longest;
}

enum class CertificateOf { this_point, another_point, no_point };

CertificateOf certificate_of(const Evidence& document, const Panel& panel, const Part& point) {
  const std::string words = words_of(document);
  const std::size_t own = named_in(words, point);
  std::size_t longest = own;
  for (const Part& other : panel.parts) {
    if (is_lifting_point(other)) longest = std::max(longest, named_in(words, other));
  }
  if (longest > own) return CertificateOf::another_point;
  const std::string kind = kind_in_words(point);
  const bool is_of_its_kind = !kind.empty() && words.find(kind) != std::string::npos;
  return own > 0 || is_of_its_kind ? CertificateOf::this_point : CertificateOf::no_point;
}

}  // namespace

void put_once(Subject& subject, const std::string& key, const std::string& value) {
  if (value.empty()) return;
  std::vector<std::string>& values = subject.facts[key];
  if (std::find(values.begin(), values.end(), value) == values.end()) values.push_back(value);
}

bool is_lifting_point(const Part& part) {
  return part.kind == PartKind::fastener && lower_case(part.object_type).find("lifting") != std::string::npos;
}

std::vector<std::string> lifting_certificates(const Project& project, const Settings& settings, const Panel& panel,
                                              const Part& point) {
  const auto day = settings.text("project.assessment_date");
  std::vector<std::string> ids;
  for (const std::size_t index : panel.evidence) {
    const Evidence& document = project.evidence[index];
    const std::string fault =
        evidence_fault(document, {EvidenceKind::lifting_certificate}, day ? day->value : std::string());
    if (!fault.empty() || certificate_of(document, panel, point) != CertificateOf::this_point) continue;
    if (std::find(ids.begin(), ids.end(), document.id) == ids.end()) ids.push_back(document.id);
  }
  return ids;
}

LiftingReuse lifting_reuse(const Project& project, const Settings& settings, const Panel& panel, const Part& point) {
  const auto stated = point.properties.text("Panel_Lifting", "Reuse");
  if (stated && stated->value == "SINGLE_USE") return LiftingReuse::single_use;
  for (const std::size_t index : panel.evidence) {
    const Evidence& document = project.evidence[index];
    if (document.kind != EvidenceKind::lifting_certificate || !speaks_of_single_use(document)) continue;
    if (certificate_of(document, panel, point) != CertificateOf::another_point) return LiftingReuse::single_use;
  }
  const bool is_certified = !lifting_certificates(project, settings, panel, point).empty();
  return stated && stated->value == "REUSABLE" && is_certified ? LiftingReuse::certified : LiftingReuse::not_shown;
}

Subjects subjects_of(const Project& project, const Settings& settings, const ResultsDocument& results) {
  return SubjectGatherer(project, settings, results).gather();
}

std::string contact_of(const Project& project, std::string_view organisation) {
  const std::string wanted = lower_case(organisation);
  for (const Party& party : project.parties) {
    if (lower_case(party.organisation) == wanted || lower_case(party.name) == wanted) {
      if (!party.contact.empty()) return party.contact;
    }
  }
  return {};
}

const std::string& name_of_layer(const Project& project, const Layer& layer) {
  const Material* material = material_at(project, layer.material);
  return material != nullptr && !material->name.empty() ? material->name : layer.name;
}

}  // namespace panel_dossier
