#include "plugins/quantities/programme/order.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <queue>
#include <string_view>
#include <tuple>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier::quantities {

namespace {

/// More of one kind make a reason unreadable.
constexpr std::size_t kProblemsNamed = 5;
constexpr const char* kConcernedTitle = "Panels whose place in the order is not known";
constexpr double kLargestNumber = 1.0e9;

using Numbers = std::vector<std::optional<long>>;

std::string quoted(const Panel& panel) {
  return "'" + panel.mark + "'";
}

/// One problem for all panels concerned, the first few by name.
void add_problem(ErectionSequence& sequence, const std::vector<std::string>& names, const std::string& what) {
  if (names.empty()) return;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), kProblemsNamed); ++i) text += (i == 0 ? "" : ", ") + names[i];
  if (names.size() > kProblemsNamed) {
    text += " and " + std::to_string(names.size() - kProblemsNamed) + " more, all in the table '" +
            std::string(kConcernedTitle) + "',";
    for (const std::string& name : names) sequence.concerned.rows.push_back({name, what});
  }
  sequence.problems.push_back(text + " " + what);
}

std::vector<std::string> split_marks(std::string_view text) {
  std::vector<std::string> marks;
  while (!text.empty()) {
    const std::string_view entry = text.substr(0, text.find(';'));
    text.remove_prefix(std::min(text.size(), entry.size() + 1));
    if (const std::string_view mark = trimmed(entry); !mark.empty()) marks.emplace_back(mark);
  }
  return marks;
}

Numbers read_numbers(const Project& project, ErectionSequence& sequence) {
  Numbers numbers(project.panels.size());
  std::vector<std::string> absent;
  std::vector<std::string> unusable;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const Panel& panel = project.panels[i];
    const auto number = panel.properties.number("Panel_Identity", "ErectionOrder");
    if (!number) {
      if (sequence.after[i].empty()) absent.push_back(quoted(panel));
    } else if (!(number->value >= 1.0) || number->value > kLargestNumber ||
               std::floor(number->value) != number->value) {
      unusable.push_back(quoted(panel));
    } else {
      numbers[i] = std::lround(number->value);
    }
  }
  add_problem(sequence, absent,
              "without place in the order of erection: give Panel_Identity.ErectionOrder, or the mark of the panel "
              "before it as Panel_Identity.After");
  add_problem(sequence, unusable, "whose Panel_Identity.ErectionOrder is not a whole number from 1");
  return numbers;
}

void read_predecessors(const Project& project, ErectionSequence& sequence) {
  std::map<std::string, std::vector<std::size_t>> by_mark;
  for (std::size_t i = 0; i < project.panels.size(); ++i) by_mark[project.panels[i].mark].push_back(i);
  sequence.after.resize(project.panels.size());
  std::vector<std::string> unknown;
  std::vector<std::string> ambiguous;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const auto after = project.panels[i].properties.text("Panel_Identity", "After");
    if (!after) continue;
    for (const std::string& mark : split_marks(after->value)) {
      const auto found = by_mark.find(mark);
      if (found == by_mark.end()) {
        unknown.push_back(quoted(project.panels[i]) + " (after '" + mark + "')");
      } else if (found->second.size() > 1) {
        ambiguous.push_back(quoted(project.panels[i]) + " (after '" + mark + "')");
      } else {
        sequence.after[i].push_back(found->second.front());
      }
    }
  }
  add_problem(sequence, unknown, "whose Panel_Identity.After names no panel of the project: correct the mark");
  add_problem(sequence, ambiguous,
              "whose Panel_Identity.After names a mark that several panels bear: give each panel a mark of its own");
}

void find_repeated(const Project& project, const Numbers& numbers, ErectionSequence& sequence) {
  std::map<long, std::vector<std::size_t>> users;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (numbers[i]) users[*numbers[i]].push_back(i);
  }
  std::vector<std::string> repeated;
  for (const auto& [number, panels] : users) {
    if (panels.size() < 2) continue;
    repeated.push_back(quoted(project.panels[panels[0]]) + " and " + quoted(project.panels[panels[1]]) + " (number " +
                       std::to_string(number) + ")");
  }
  add_problem(sequence, repeated, "share a place: give each panel a Panel_Identity.ErectionOrder of its own");
}

void find_contradictions(const Project& project, const Numbers& numbers, ErectionSequence& sequence) {
  std::vector<std::string> contradictions;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    for (const std::size_t before : sequence.after[i]) {
      if (before == i || !numbers[i] || !numbers[before] || *numbers[before] < *numbers[i]) continue;
      contradictions.push_back(quoted(project.panels[i]) + " (after " + quoted(project.panels[before]) + ")");
    }
  }
  add_problem(sequence, contradictions,
              "whose ErectionOrder comes before that of the panel in Panel_Identity.After: change one of the two");
}

/// Panels that wait for each other. Precondition: each panel that is not `placed` waits for one that is not.
void name_circle(const Project& project, const std::vector<bool>& placed, ErectionSequence& sequence) {
  std::size_t at = static_cast<std::size_t>(std::find(placed.begin(), placed.end(), false) - placed.begin());
  std::vector<std::size_t> walked;
  while (std::find(walked.begin(), walked.end(), at) == walked.end()) {
    walked.push_back(at);
    const std::vector<std::size_t>& after = sequence.after[at];
    at = *std::find_if(after.begin(), after.end(), [&placed](std::size_t before) { return !placed[before]; });
  }
  std::string circle = quoted(project.panels[at]);
  for (auto i = std::find(walked.begin(), walked.end(), at) + 1; i != walked.end(); ++i) {
    circle += " after " + quoted(project.panels[*i]);
  }
  sequence.problems.push_back("the order of erection goes in a circle: " + circle + " after " +
                              quoted(project.panels[at]) + "; take one Panel_Identity.After away");
}

/// The free panel of the lowest number comes first. A panel without a number takes that of the panel it follows, and a
/// depth that puts it behind.
void sort_panels(const Project& project, const Numbers& numbers, ErectionSequence& sequence) {
  using Place = std::tuple<long, std::size_t, std::size_t>;  // number, depth behind it, panel
  const std::size_t count = numbers.size();
  std::vector<std::vector<std::size_t>> followers(count);
  std::vector<std::size_t> waits(count);
  std::vector<std::pair<long, std::size_t>> place(count);
  for (std::size_t i = 0; i < count; ++i) {
    waits[i] = sequence.after[i].size();
    for (const std::size_t before : sequence.after[i]) followers[before].push_back(i);
  }
  std::priority_queue<Place, std::vector<Place>, std::greater<>> free;
  const auto release = [&](std::size_t panel) {
    if (numbers[panel]) place[panel] = {*numbers[panel], 0};
    free.emplace(place[panel].first, place[panel].second, panel);
  };
  for (std::size_t i = 0; i < count; ++i) {
    if (waits[i] == 0) release(i);
  }
  std::vector<bool> placed(count, false);
  while (!free.empty()) {
    const std::size_t panel = std::get<2>(free.top());
    free.pop();
    placed[panel] = true;
    sequence.panels.push_back(panel);
    for (const std::size_t follower : followers[panel]) {
      place[follower] = std::max(place[follower], {place[panel].first, place[panel].second + 1});
      if (--waits[follower] == 0) release(follower);
    }
  }
  if (sequence.panels.size() < count) name_circle(project, placed, sequence);
}

/// Load-bearing panels that come after a panel which may stand on them.
std::size_t count_late_bearing(const Project& project, const std::vector<std::size_t>& panels) {
  std::map<std::string, std::size_t> highest;
  std::size_t late = 0;
  for (const std::size_t index : panels) {
    const Panel& panel = project.panels[index];
    if (!panel.storey) continue;
    std::size_t& top = highest[panel.building];
    const auto bearing = panel.load_bearing();
    if (bearing && bearing->value && *panel.storey < top) ++late;
    top = std::max(top, *panel.storey);
  }
  return late;
}

}  // namespace

ErectionSequence erection_sequence(const Project& project) {
  ErectionSequence sequence;
  sequence.concerned = {kConcernedTitle, {{"panel", ""}, {"problem", ""}}, {}};
  if (project.panels.empty()) sequence.problems.emplace_back("the project has no panels");
  read_predecessors(project, sequence);
  const Numbers numbers = read_numbers(project, sequence);
  find_repeated(project, numbers, sequence);
  find_contradictions(project, numbers, sequence);
  sort_panels(project, numbers, sequence);
  sequence.late_bearing = count_late_bearing(project, sequence.panels);
  return sequence;
}

namespace {

bool is_number(const std::string& text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::optional<int> erection_order(const Panel& panel) {
  const auto order = panel.properties.number("Panel_Identity", "ErectionOrder");
  if (!order || !(order->value >= 1.0) || order->value > kLargestNumber) return std::nullopt;
  if (std::floor(order->value) != order->value) return std::nullopt;
  return static_cast<int>(std::lround(order->value));
}

std::string batch_of(const Panel& panel, const Settings& settings) {
  const auto stated = panel.properties.text("Panel_Identity", "Batch");
  if (stated && !stated->value.empty()) return stated->value;
  const auto order = erection_order(panel);
  const auto size = settings.number("quantities.panels_per_batch");
  if (!order || !size || !(size->value >= 1.0) || size->value > kLargestNumber) return {};
  return std::to_string(1 + (*order - 1) / static_cast<int>(size->value));
}

bool batch_before(const std::string& a, const std::string& b) {
  if (is_number(a) != is_number(b)) return is_number(a);
  if (is_number(a) && a.size() != b.size()) return a.size() < b.size();
  return a < b;
}

}  // namespace panel_dossier::quantities
