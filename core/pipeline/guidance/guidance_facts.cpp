#include "core/pipeline/guidance/guidance_facts.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

struct KindWord {
  std::string_view word;
  SubjectKind kind;
};

constexpr std::array<KindWord, 7> kKindWords{{{"panel", SubjectKind::panel},
                                              {"layer", SubjectKind::layer},
                                              {"product", SubjectKind::product},
                                              {"fixing", SubjectKind::fixing},
                                              {"lifting", SubjectKind::lifting},
                                              {"opening", SubjectKind::opening},
                                              {"project", SubjectKind::project}}};

struct KnownFact {
  std::string_view key;
  std::string_view kinds;  ///< words of the kinds that have it, with a blank between
  std::string_view what;
  std::string_view who;
};

constexpr std::string_view kModel = "whoever exports the model";
constexpr std::string_view kOffice = "the maker of the panels, in the library table 'people'";
constexpr std::string_view kSettings = "whoever writes the project settings";

constexpr std::array<KnownFact, 45> kFacts{{
    {"product.name", "layer product fixing lifting", "name of the product", kModel},
    {"product.category", "layer product fixing lifting", "category of the material", kModel},
    {"product.maker", "layer product fixing lifting opening", "maker of the product",
     "the maker of the panels, in the library"},
    {"product.contact", "layer product fixing lifting opening", "contact of the maker of the product", kOffice},
    {"product.service_life_years", "layer product fixing lifting", "service life of the product",
     "its maker; in the library or the export as Panel_Supply.ServiceLife"},
    {"product.parts", "product", "parts made of the product", kModel},
    {"product.functions", "product", "layers made of the product", kModel},
    {"layer.name", "layer", "name of the layer", kModel},
    {"layer.function", "layer", "category of the layer", kModel},
    {"layer.position", "layer", "place of the layer in the build-up", kModel},
    {"layer.face", "layer", "face that the layer forms", kModel},
    {"layer.thickness_mm", "layer", "thickness of the layer", kModel},
    {"layer.depth_mm", "layer", "depth of the layer behind the inner face", kModel},
    {"layer.ventilated", "layer", "whether the air layer is ventilated", kModel},
    {"fixing.name", "fixing", "kind of fixing", kModel},
    {"fixing.kind", "fixing", "kind of fixing", kModel},
    {"fixing.pieces", "fixing", "number of the fixings", kModel},
    {"lifting.name", "lifting", "kind of lifting point", kModel},
    {"lifting.reuse", "lifting", "whether the lifting point may be used again",
     "the maker of the lifting point; in the library as Panel_Lifting.Reuse, with its certificate"},
    {"lifting.load_kn", "lifting", "working load limit of the lifting point", "the maker of the lifting point"},
    {"lifting.certificate", "lifting", "certificate of the lifting point", "the maker of the lifting point"},
    {"opening.name", "opening", "name of the window or door", kModel},
    {"opening.kind", "opening", "what fills the opening", kModel},
    {"panel.type", "panel", "type of the panel", kModel},
    {"panel.width_m", "panel", "width of the panel", kModel},
    {"panel.height_m", "panel", "height of the panel", kModel},
    {"panel.thickness_mm", "panel", "thickness of the panel", kModel},
    {"panel.mass_kg", "panel", "mass of the panel", kModel},
    {"panel.hook_kg", "panel", "load on the hook", kSettings},
    {"panel.stud_middles_mm", "panel", "places of the studs", kModel},
    {"panel.load_bearing", "panel", "whether the panel carries load", kModel},
    {"panel.functions", "panel", "layers of the panel", kModel},
    {"panel.openings", "panel", "openings of the panel", kModel},
    {"panel.installed", "panel", "day of installation", "the installer, in the records 'installation'"},
    {"project.panels", "project", "number of panels", kModel},
    {"project.heaviest_kg", "project", "mass of the heaviest panel", kModel},
    {"project.highest_m", "project", "height of the panels from the lowest to the highest edge", kModel},
    {"project.storeys", "project", "number of storeys", kModel},
    {"project.calendar_start", "project", "first day of the calendar", kSettings},
    {"project.parties_open", "project", "parties that are not named", kOffice},
    {"project.identifier", "project", "information identifier", kSettings},
    {"project.approved", "project", "approval of this revision",
     "whoever approves, in the setting information.approvals"},
    {"project.documents", "project", "documents of the evidence register", kOffice},
    {"project.documents_open", "project", "documents that are missing, cannot be read or do not hold", kOffice},
    {"project.evidence_needed", "project", "results that still need evidence", kOffice},
}};

constexpr std::array<std::string_view, 6> kFields{"verdict", "value", "limit", "basis", "clause", "reason"};

/// Facts of the project under a name: who has a role, sentences of a topic, panels whose result of a role is open.
constexpr std::string_view kParty = "party:";
constexpr std::string_view kAdvice = "advice:";
constexpr std::string_view kLacking = "lacking:";
constexpr std::string_view kOpen = "open:";

constexpr std::array<std::string_view, 4> kWithTheSentences{"project.calendar_start", "project.parties_open",
                                                            "project.identifier", "project.approved"};

const KnownFact* find_fact(std::string_view key) {
  const auto found =
      std::find_if(kFacts.begin(), kFacts.end(), [key](const KnownFact& fact) { return fact.key == key; });
  return found == kFacts.end() ? nullptr : &*found;
}

std::string_view word_of_kind(SubjectKind kind) {
  const auto found =
      std::find_if(kKindWords.begin(), kKindWords.end(), [kind](const KindWord& word) { return word.kind == kind; });
  return found == kKindWords.end() ? std::string_view() : found->word;
}

bool stands_among(std::string_view word, std::string_view words) {
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = std::min(words.find(' ', at), words.size());
    if (words.substr(at, end - at) == word) return true;
    at = end + 1;
  }
  return false;
}

/// `Set.Name`: letters, digits and underscores on both sides of the point, a capital first.
bool is_property_key(std::string_view key) {
  const std::size_t point = key.find('.');
  if (point == std::string_view::npos || point == 0 || point + 1 == key.size()) return false;
  if (std::isupper(static_cast<unsigned char>(key.front())) == 0) return false;
  return std::all_of(key.begin(), key.end(),
                     [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.'; });
}

bool has_prefix(std::string_view key, std::string_view prefix) {
  return key.starts_with(prefix) && key.size() > prefix.size();
}

/// Of a key with one of the prefixes of the project: what is wrong with what stands behind; empty where nothing is.
std::string name_fault(std::string_view key, std::string_view prefix, const std::vector<std::string>& known,
                       const char* kind_of_name) {
  const std::string name(key.substr(prefix.size()));
  if (std::find(known.begin(), known.end(), name) != known.end()) return {};
  return "'" + std::string(key) + "' names no " + kind_of_name + "; they are " + joined(known);
}

std::string fault_of_project_fact(std::string_view key) {
  if (key == kParty) return "'party:' names no role of a party";
  if (key.starts_with(kOpen)) return name_fault(key, kOpen, {role::kAll.begin(), role::kAll.end()}, "role");
  for (const std::string_view prefix : {kAdvice, kLacking}) {
    if (key.starts_with(prefix)) return name_fault(key, prefix, guidance_topics(), "topic");
  }
  return {};
}

bool is_project_fact(std::string_view key) {
  return key.starts_with(kParty) || key.starts_with(kOpen) || key.starts_with(kAdvice) || key.starts_with(kLacking);
}

bool can_have(SubjectKind kind, std::string_view key) {
  if (has_prefix(key, "setting:")) return true;
  if (is_project_fact(key)) return kind == SubjectKind::project;
  if (parse_finding_fact(key)) return kind == SubjectKind::panel || kind == SubjectKind::project;
  if (const KnownFact* fact = find_fact(key)) return stands_among(word_of_kind(kind), fact->kinds);
  return is_property_key(key);
}

}  // namespace

std::optional<SubjectKind> parse_subject_kind(std::string_view word) {
  for (const KindWord& known : kKindWords) {
    if (known.word == word) return known.kind;
  }
  return std::nullopt;
}

std::optional<FindingFact> parse_finding_fact(std::string_view key) {
  const bool is_role = key.starts_with("role:");
  if (!is_role && !key.starts_with("check:")) return std::nullopt;
  key.remove_prefix(key.find(':') + 1);
  FindingFact fact;
  std::size_t cut = key.find('#');
  fact.is_named_value = cut != std::string_view::npos;
  if (!fact.is_named_value) cut = key.rfind('.');
  if (cut == std::string_view::npos || cut == 0 || cut + 1 == key.size()) return std::nullopt;
  fact.name = key.substr(0, cut);
  fact.field = key.substr(cut + 1);
  if (is_role && std::find(role::kAll.begin(), role::kAll.end(), fact.name) == role::kAll.end()) return std::nullopt;
  if (!is_role && fact.name.find('.') == std::string_view::npos) return std::nullopt;
  const bool is_field = std::find(kFields.begin(), kFields.end(), fact.field) != kFields.end();
  if (!fact.is_named_value && !is_field) return std::nullopt;
  return fact;
}

const std::vector<std::string>& guidance_topics() {
  static const std::vector<std::string> topics{
      "operation.function",     "operation.loss",        "operation.repair",     "operation.puncture",
      "operation.inspect",      "operation.clean",       "operation.fixing",     "operation.replace",
      "operation.alter",        "safety.risk",           "safety.treatment",     "safety.dust",
      "safety.lifting",         "safety.dismantling",    "safety.reuse",         "safety.disposal",
      "fire_safety.required",   "fire_safety.installed", "fire_safety.evidence", "fire_safety.keep",
      "fire_safety.responsible"};
  return topics;
}

std::string fact_fault(SubjectKind kind, std::string_view key) {
  if (!can_have(kind, key)) {
    return "'" + std::string(key) + "' is no fact of what the row speaks of; schemas/guidance.md lists them";
  }
  return fault_of_project_fact(key);
}

bool is_for_duties_alone(std::string_view key) {
  return key.starts_with(kAdvice) || key.starts_with(kLacking) ||
         std::find(kWithTheSentences.begin(), kWithTheSentences.end(), key) != kWithTheSentences.end();
}

FactNeed need_of(std::string_view key) {
  if (const KnownFact* fact = find_fact(key)) return {std::string(fact->what), std::string(fact->who)};
  if (has_prefix(key, "setting:")) {
    key.remove_prefix(key.find(':') + 1);
    return {"setting '" + std::string(key) + "'", std::string(kSettings)};
  }
  if (has_prefix(key, kParty)) {
    key.remove_prefix(kParty.size());
    return {"who is " + std::string(key), "the client, in the library table 'people'"};
  }
  if (const auto fact = parse_finding_fact(key)) {
    return {"result of '" + std::string(fact->name) + "'", "whoever can close its open points in part 10"};
  }
  return {"property '" + std::string(key) + "'", "the maker; in the export or the library"};
}

}  // namespace panel_dossier
