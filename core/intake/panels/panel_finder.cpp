#include "core/intake/panels/panel_finder.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "core/intake/graph/vocabulary.h"

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

bool is_candidate(const Element& element) {
  const std::string_view type = ifc_type(element);
  return is_wall_type(type) || type == "IfcElementAssembly";
}

bool is_other_assembly(const ReadContext& context, const Element& element) {
  if (ifc_type(element) != "IfcElementAssembly") return false;
  const std::string kind = enumeration_token(context.graph.text(element, "PredefinedType"));
  return std::find(kOtherAssemblies.begin(), kOtherAssemblies.end(), kind) != kOtherAssemblies.end();
}

/// Remembers its answers, so that an elevation of thousands of panels is looked at once.
class PanelTest {
 public:
  explicit PanelTest(const ReadContext& context) : context_(context) {}

  bool is_container(const Element& element) {
    const auto known = container_.find(element.key());
    if (known != container_.end()) return known->second;
    const auto children = context_.graph.linked(Link::parts, element);
    const bool is = !children.empty() && std::all_of(children.begin(), children.end(), is_candidate);
    return container_[element.key()] = is;
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
      inside = inside || (whole && is_candidate(whole) && !is_container(whole));
      inside_[at->key()] = inside;
    }
    return inside;
  }

 private:
  const ReadContext& context_;
  std::unordered_map<const void*, bool> container_;
  std::unordered_map<const void*, bool> inside_;

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
    } else if (children.empty() && !is_candidate(at)) {
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

std::vector<Element> candidates(const ReadContext& context) {
  std::vector<Element> found;
  for (const std::string_view type : {"IfcElementAssembly", "IfcWall", "IfcWallStandardCase", "IfcWallElementedCase"}) {
    const std::vector<Element>& all = context.graph.all(type);
    found.insert(found.end(), all.begin(), all.end());
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

std::vector<PanelEntities> find_panels(const ReadContext& context) {
  std::vector<PanelEntities> panels;
  PanelTest test(context);
  for (const Element& element : candidates(context)) {
    if (is_other_assembly(context, element) || test.is_container(element)) continue;
    if (test.is_inside_panel(element)) continue;
    PanelEntities panel{element, {}, {}};
    collect_parts(context, panel);
    if (panel.parts.empty() && ifc_type(element) == "IfcElementAssembly") {
      context.report.warning(element, "the assembly has no parts and is not read as a panel",
                             "export the parts it decomposes into");
      continue;
    }
    panels.push_back(std::move(panel));
  }
  return panels;
}

}  // namespace panel_dossier
