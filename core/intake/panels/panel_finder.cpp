#include "core/intake/panels/panel_finder.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/classification_reader.h"
#include "core/intake/panels/part_reader.h"

namespace panel_dossier {

namespace {

using KeySet = std::unordered_set<const void*>;

// Values of IfcElementAssemblyTypeEnum that name something other than a wall panel.
constexpr std::array<std::string_view, 14> kOtherAssemblies{"ACCESSORY_ASSEMBLY",
                                                            "ABUTMENT",
                                                            "ARCH",
                                                            "BEAM_GRID",
                                                            "BRACED_FRAME",
                                                            "DECK",
                                                            "GIRDER",
                                                            "GRID",
                                                            "PIER",
                                                            "PYLON",
                                                            "RIGID_FRAME",
                                                            "SLAB_FIELD",
                                                            "TRUSS",
                                                            "REINFORCEMENT_UNIT"};

bool is_wall_or_assembly(const Element& element) {
  const std::string_view type = ifc_type(element);
  return is_wall_type(type) || type == "IfcElementAssembly";
}

bool is_other_assembly(const ReadContext& context, const Element& element) {
  if (ifc_type(element) != "IfcElementAssembly") return false;
  const std::string kind = enumeration_token(context.graph.text(element, "PredefinedType"));
  return std::find(kOtherAssemblies.begin(), kOtherAssemblies.end(), kind) != kOtherAssemblies.end();
}

/// `IfcSlab` names IfcSlabStandardCase and IfcSlabElementedCase too.
bool is_of_entity(const Element& element, std::string_view entity) {
  const std::string_view type = ifc_type(element);
  if (type.substr(0, entity.size()) != entity) return false;
  const std::string_view rest = type.substr(entity.size());
  return rest.empty() || rest == "StandardCase" || rest == "ElementedCase";
}

bool has_panel_set(const ReadContext& context, const Element& element) {
  const auto is_panel_set = [&](const Element& set) {
    const std::string name = context.graph.text(set, "Name");
    return name.starts_with("Panel_") && name != kResultsSet;
  };
  const auto own = context.graph.linked(Link::property_sets, element);
  if (std::any_of(own.begin(), own.end(), is_panel_set)) return true;
  for (const Element& type : context.graph.linked(Link::type, element)) {
    const std::vector<Element> of_type = context.graph.entities(type, "HasPropertySets");
    if (std::any_of(of_type.begin(), of_type.end(), is_panel_set)) return true;
  }
  return false;
}

/// Holds an element against the conditions of rules.
class RuleTest {
 public:
  explicit RuleTest(const RuleReaders& readers) : readers_(readers) {}

  bool fits(const Element& element, const PanelRule& rule) const {
    const bool is_kind = rule.entity.empty() ? is_wall_or_assembly(element) : is_of_entity(element, rule.entity);
    return is_kind && fits_type(element, rule) && fits_classification(element, rule) && fits_property(element, rule) &&
           fits_storey(element, rule) && fits_layer_set(element, rule);
  }

 private:
  const RuleReaders& readers_;

  bool fits_type(const Element& element, const PanelRule& rule) const {
    return rule.type_name.empty() || matches_pattern(type_name(readers_.context, element), rule.type_name);
  }

  bool fits_classification(const Element& element, const PanelRule& rule) const {
    if (rule.classification.empty()) return true;
    const auto found = classifications_of(readers_.context, element);
    return std::any_of(found.begin(), found.end(), [&](const ClassificationReference& reference) {
      return matches_pattern(reference.identification, rule.classification) ||
             matches_pattern(reference.name, rule.classification);
    });
  }

  bool fits_property(const Element& element, const PanelRule& rule) const {
    if (rule.property.empty()) return true;
    const Properties properties = readers_.properties.of_object(element);
    const auto found = properties.all().find(rule.property);
    if (found == properties.all().end()) return false;
    return !rule.equals || equals(found->second.value, *rule.equals);
  }

  static bool equals(const std::variant<double, bool, std::string>& value, const Settings::Value& wanted) {
    if (value.index() != wanted.index()) return false;
    if (const auto* text = std::get_if<std::string>(&value))
      return matches_pattern(*text, std::get<std::string>(wanted));
    if (const auto* number = std::get_if<double>(&value)) {
      // Conversion to SI leaves some rounding.
      constexpr double kConverted = 1e-9;
      const double asked = std::get<double>(wanted);
      return std::abs(*number - asked) <= kConverted * std::max(std::abs(*number), std::abs(asked));
    }
    return value == wanted;
  }

  bool fits_storey(const Element& element, const PanelRule& rule) const {
    if (rule.storey.empty()) return true;
    const SpatialPlace place = readers_.spatial.place_of(element);
    return place.storey && matches_pattern(readers_.project.storeys[*place.storey].name, rule.storey);
  }

  bool fits_layer_set(const Element& element, const PanelRule& rule) const {
    if (rule.layer_set.empty()) return true;
    const Element set = readers_.materials.layer_set_entity(element);
    return set && matches_pattern(readers_.context.graph.text(set, "LayerSetName"), rule.layer_set);
  }
};

constexpr const char* kLayersAlone = "a wall of layers alone, beside panels with parts or properties";

/// Why an element is a panel or is none.
struct Decision {
  bool is_panel = false;
  std::string reason;
};

/// Remembers its answers, so that an elevation of thousands of panels is looked at once.
class PanelTest {
 public:
  PanelTest(const RuleReaders& readers, const std::vector<PanelRule>& rules, bool takes_layered_walls)
      : context_(readers.context),
        materials_(readers.materials),
        rules_(rules),
        rule_test_(readers),
        takes_layered_walls_(takes_layered_walls),
        uses_(rules.size(), 0) {
    for (const PanelRule& rule : rules) has_including_ = has_including_ || rule.includes;
  }

  bool is_candidate(const Element& element) const {
    return is_wall_or_assembly(element) || std::any_of(rules_.begin(), rules_.end(), [&](const PanelRule& rule) {
             return !rule.entity.empty() && is_of_entity(element, rule.entity);
           });
  }

  bool is_container(const Element& element) {
    const auto known = container_.find(element.key());
    if (known != container_.end()) return known->second;
    const auto children = context_.graph.linked(Link::parts, element);
    const bool is = !children.empty() && std::all_of(children.begin(), children.end(), is_wall_or_assembly);
    return container_[element.key()] = is;
  }

  const Decision& decide(const Element& element) {
    const auto known = decisions_.find(element.key());
    if (known != decisions_.end()) return known->second;
    return decisions_[element.key()] = decided(element);
  }

  /// Chains of wholes are as long as the file may be deep, so this climbs once and fills in on the way back.
  bool is_inside_panel(const Element& element) {
    std::vector<Element> chain;
    bool inside = false;
    for (Element at = element; at; at = whole_of(at)) {
      const auto known = inside_.find(at.key());
      if (known != inside_.end()) {
        inside = known->second;
        break;
      }
      chain.push_back(at);
    }
    for (auto at = chain.rbegin(); at != chain.rend(); ++at) {
      const Element whole = whole_of(*at);
      inside = inside || (whole && is_candidate(whole) && !is_container(whole) && decide(whole).is_panel);
      inside_[at->key()] = inside;
    }
    return inside;
  }

  void warn_of_unused() const {
    for (std::size_t i = 0; i < rules_.size(); ++i) {
      if (uses_[i] != 0) continue;
      context_.report.file_warning(rules_[i].text + " of the setting intake.panels decides on no element of the export",
                                   "correct it, or leave it out");
    }
  }

 private:
  const ReadContext& context_;
  const MaterialReader& materials_;
  const std::vector<PanelRule>& rules_;
  RuleTest rule_test_;
  bool takes_layered_walls_;
  bool has_including_ = false;
  std::vector<std::size_t> uses_;
  std::unordered_map<const void*, bool> container_;
  std::unordered_map<const void*, bool> inside_;
  std::unordered_map<const void*, Decision> decisions_;

  Decision decided(const Element& element) {
    for (std::size_t i = 0; i < rules_.size(); ++i) {
      if (!rule_test_.fits(element, rules_[i])) continue;
      ++uses_[i];
      return {rules_[i].includes, rules_[i].text};
    }
    if (has_including_) return {false, "no rule fits"};
    return decided_without_rule(element);
  }

  Decision decided_without_rule(const Element& element) const {
    if (is_other_assembly(context_, element)) return {false, "an assembly of another kind than a wall"};
    if (!context_.graph.linked(Link::parts, element).empty()) return {true, "decomposes into parts"};
    if (has_panel_set(context_, element)) return {true, "carries a property set Panel_…"};
    if (!is_wall_type(ifc_type(element))) return {true, "an assembly of coverings"};
    const bool has_layers = static_cast<bool>(materials_.layer_set_entity(element));
    if (takes_layered_walls_ && has_layers) return {true, "a wall with layers, in an export without parts"};
    return {false, has_layers ? kLayersAlone : "neither parts nor properties of a panel nor layers"};
  }

  Element whole_of(const Element& element) const {
    const auto wholes = context_.graph.linked(Link::whole, element);
    return wholes.empty() ? Element() : wholes.front();
  }
};

void check_single_whole(const ReadContext& context, const Element& part) {
  const std::size_t count = context.graph.linked(Link::whole, part).size();
  if (count < 2) return;
  context.report.error(part, "is a part of " + std::to_string(count) + " wholes",
                       "let every part belong to one panel or subassembly");
}

void collect_parts(const ReadContext& context, PanelEntities& panel) {
  KeySet seen{panel.panel.key()};
  std::vector<Element> open{panel.panel};
  while (!open.empty()) {
    const Element at = open.back();
    open.pop_back();
    const auto children = context.graph.linked(Link::parts, at);
    if (at == panel.panel) {
      // The panel itself is no part of itself.
    } else if (children.empty() && !is_wall_or_assembly(at)) {
      check_single_whole(context, at);
      panel.parts.push_back(at);
    } else {
      panel.subassemblies.push_back(at);
    }
    const auto coverings = context.graph.linked(Link::coverings, at);
    for (const auto& group : {coverings, children}) {
      for (auto child = group.rbegin(); child != group.rend(); ++child) {
        if (context.budget.take(1) && seen.insert(child->key()).second) open.push_back(*child);
      }
    }
  }
}

std::vector<Element> candidates(const ReadContext& context, const std::vector<PanelRule>& rules) {
  std::vector<std::string> types{"IfcElementAssembly", "IfcWall"};
  for (const PanelRule& rule : rules) {
    if (rule.entity.empty() || std::find(types.begin(), types.end(), rule.entity) != types.end()) continue;
    types.push_back(rule.entity);
  }
  std::vector<Element> found;
  for (const std::string& type : types) {
    for (const char* ending : {"", "StandardCase", "ElementedCase"}) {
      const std::vector<Element>& all = context.graph.all(type + ending);
      found.insert(found.end(), all.begin(), all.end());
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Element& a, const Element& b) { return a.offset() < b.offset(); });
  return found;
}

/// Everything an element is a part of or contained in. A sound element has one owner, a faulty one may have several.
std::vector<Element> owners_of(const ReadContext& context, const Element& element) {
  std::vector<Element> owners;
  for (const Link link : {Link::whole, Link::container}) {
    const auto found = context.graph.linked(link, element);
    if (found.empty()) continue;
    owners.insert(owners.end(), found.begin(), found.end());
  }
  return owners;
}

/// Depth-first search over owners, without recursion: chains may be as long as the file.
class CycleSearch {
 public:
  explicit CycleSearch(const ReadContext& context) : context_(context) {}

  bool is_sound() const { return is_sound_; }

  void from(const Element& start) {
    // Sets, relationships and types have no owner, and most of an export is of those.
    if (owners_of(context_, start).empty()) return;
    open(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      if (step.next == step.owners.size()) {
        state_[step.element.key()] = State::done;
        path_.pop_back();
        continue;
      }
      const Element owner = step.owners[step.next++];
      const auto known = state_.find(owner.key());
      if (known == state_.end()) {
        open(owner);
      } else if (known->second == State::on_path) {
        report(step.element);
      }
    }
  }

 private:
  enum class State { on_path, done };
  struct Step {
    Element element;
    std::vector<Element> owners;
    std::size_t next = 0;
  };

  const ReadContext& context_;
  std::unordered_map<const void*, State> state_;
  std::vector<Step> path_;
  bool is_sound_ = true;

  void open(const Element& element) {
    if (state_.emplace(element.key(), State::on_path).second) {
      path_.push_back({element, owners_of(context_, element), 0});
    }
  }

  void report(const Element& element) {
    is_sound_ = false;
    context_.report.error(element, "is, through what it is a part of, inside itself",
                          "let every object be a part of one whole, up to the project");
  }
};

}  // namespace

bool check_decomposition(const ReadContext& context) {
  CycleSearch search(context);
  for (const Element& element : context.graph.rooted()) search.from(element);
  return search.is_sound();
}

namespace {

void count(const Decision& decision, std::vector<ChoiceCount>& counts) {
  for (ChoiceCount& known : counts) {
    if (known.reason != decision.reason || known.is_panel != decision.is_panel) continue;
    ++known.elements;
    return;
  }
  counts.push_back({decision.reason, decision.is_panel, 1});
}

/// Walls with layers that no rule decides on and that stand beside panels which say more of themselves.
class LeftOutWalls {
 public:
  void add(const RuleReaders& readers, const Element& wall) {
    std::string kind = type_name(readers.context, wall);
    if (kind.empty()) {
      kind = readers.context.graph.text(readers.materials.layer_set_entity(wall), "LayerSetName");
    }
    ++kinds_[kind];
    ++walls_;
  }

  void warn(const ReadContext& context, std::size_t panels) const {
    if (walls_ == 0) return;
    std::vector<std::string> texts;
    for (const auto& [kind, walls] : kinds_) {
      if (texts.size() == kShownKinds) break;
      texts.push_back(std::to_string(walls) + (kind.empty() ? " of no type" : " of type '" + kind + "'"));
    }
    if (kinds_.size() > kShownKinds) texts.push_back(std::to_string(kinds_.size() - kShownKinds) + " types more");
    context.report.file_warning(
        "walls with material layers that are left out: " + std::to_string(walls_) + " (" + joined(texts) +
            "); panels that decompose into parts or carry a property set 'Panel_…': " + std::to_string(panels),
        "say with the setting intake.panels which elements are panels and which are not");
  }

 private:
  static constexpr std::size_t kShownKinds = 6;
  std::map<std::string, std::size_t> kinds_;
  std::size_t walls_ = 0;
};

PanelChoice choose(const RuleReaders& readers, const std::vector<PanelRule>& rules, PanelTest& test) {
  const ReadContext& context = readers.context;
  PanelChoice choice;
  LeftOutWalls left_out;
  for (const Element& element : candidates(context, rules)) {
    if (test.is_container(element) || test.is_inside_panel(element)) continue;
    const Decision& decision = test.decide(element);
    if (!decision.is_panel) {
      count(decision, choice.counts);
      if (decision.reason == kLayersAlone) left_out.add(readers, element);
      continue;
    }
    PanelEntities panel{element, {}, {}};
    collect_parts(context, panel);
    if (panel.parts.empty() && ifc_type(element) == "IfcElementAssembly") {
      count({false, "an assembly without parts"}, choice.counts);
      context.report.warning(element, "the assembly has no parts and is not read as a panel",
                             "export the parts it decomposes into");
      continue;
    }
    count(decision, choice.counts);
    choice.panels.push_back(std::move(panel));
  }
  if (!choice.panels.empty()) left_out.warn(context, choice.panels.size());
  return choice;
}

}  // namespace

std::unordered_set<const void*> entities_of(const ReadContext& context, const std::vector<PanelEntities>& panels) {
  std::unordered_set<const void*> keys;
  for (const PanelEntities& panel : panels) {
    keys.insert(panel.panel.key());
    for (const std::vector<Element>* group : {&panel.parts, &panel.subassemblies}) {
      for (const Element& element : *group) keys.insert(element.key());
    }
    std::vector<Element> around{panel.panel};
    while (!around.empty()) {
      const auto wholes = context.graph.linked(Link::whole, around.back());
      around.pop_back();
      for (const Element& whole : wholes) {
        if (keys.insert(whole.key()).second) around.push_back(whole);
      }
    }
  }
  return keys;
}

PanelChoice find_panels(const RuleReaders& readers, const std::vector<PanelRule>& rules) {
  PanelTest test(readers, rules, false);
  PanelChoice choice = choose(readers, rules, test);
  const bool has_including =
      std::any_of(rules.begin(), rules.end(), [](const PanelRule& rule) { return rule.includes; });
  test.warn_of_unused();
  if (!choice.panels.empty() || has_including) return choice;
  PanelTest layered(readers, rules, true);
  return choose(readers, rules, layered);
}

}  // namespace panel_dossier
