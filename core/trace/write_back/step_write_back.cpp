// The STEP form of an export (ISO 10303-21) with results.
#include <algorithm>
#include <charconv>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/property_reader.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

/// One `#12=NAME(…);` of the text, by the bytes where it begins and ends.
struct Statement {
  std::size_t begin = 0;
  std::size_t end = 0;  ///< behind the semicolon
  std::uint64_t number = 0;
  std::string_view keyword;
  std::string_view arguments;  ///< between the outer brackets
};

/// Behind the string that opens at `at`. A quote is doubled inside; what follows \S\ is data, be it a quote.
std::size_t behind_string(std::string_view text, std::size_t at) {
  for (++at; at < text.size(); ++at) {
    if (text.substr(at, 3) == "\\S\\") {
      at += 3;
    } else if (text[at] == '\'') {
      if (text.substr(at + 1, 1) != "'") return at + 1;
      ++at;
    }
  }
  return text.size();
}

std::size_t behind_comment(std::string_view text, std::size_t at) {
  const std::size_t end = text.find("*/", at + 2);
  return end == std::string_view::npos ? text.size() : end + 2;
}

/// The next byte that is neither inside a string nor a comment and for which `wanted` holds; the size when none is.
std::size_t find_outside(std::string_view text, std::size_t at, const std::function<bool(char)>& wanted) {
  while (at < text.size()) {
    if (text[at] == '\'') {
      at = behind_string(text, at);
    } else if (text.substr(at, 2) == "/*") {
      at = behind_comment(text, at);
    } else if (wanted(text[at])) {
      return at;
    } else {
      ++at;
    }
  }
  return text.size();
}

std::string_view without_comments_in_front(std::string_view text) {
  text = trimmed(text);
  while (text.starts_with("/*")) text = trimmed(text.substr(behind_comment(text, 0)));
  return text;
}

std::uint64_t number_behind(std::string_view text) {
  std::uint64_t number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

/// The arguments of the outermost level, without white space around them.
std::vector<std::string_view> arguments_of(std::string_view list) {
  std::vector<std::string_view> arguments;
  int depth = 0;
  std::size_t start = 0;
  for (std::size_t at = 0; at <= list.size(); ++at) {
    at = find_outside(list, at, [](char c) { return c == ',' || c == '(' || c == ')'; });
    if (at < list.size() && list[at] != ',') {
      depth += list[at] == '(' ? 1 : -1;
      continue;
    }
    if (depth != 0 && at < list.size()) continue;
    arguments.push_back(without_comments_in_front(list.substr(start, at - start)));
    start = at + 1;
  }
  return arguments;
}

/// All numbers behind # in a list of references.
std::vector<std::uint64_t> references_in(std::string_view list) {
  std::vector<std::uint64_t> numbers;
  for (std::size_t at = list.find('#'); at != std::string_view::npos; at = list.find('#', at + 1)) {
    numbers.push_back(number_behind(list.substr(at + 1)));
  }
  return numbers;
}

std::string upper_case(std::string_view text) {
  std::string upper(text);
  for (char& c : upper) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return upper;
}

/// `'…'` with everything beyond printable ASCII in directives.
std::string step_literal(std::string_view text) {
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  const auto hexadecimal = [&](char32_t value, unsigned digits) {
    std::string shown;
    for (unsigned i = digits; i > 0; --i) shown += kDigits[(value >> (4U * (i - 1U))) & 0xFU];
    return shown;
  };
  std::string literal = "'";
  while (!text.empty()) {
    const char32_t code = take_character(text);
    if (code > 0xFFFFU) {
      literal += "\\X4\\" + hexadecimal(code, 8) + "\\X0\\";
    } else if (code > 0x7EU) {
      literal += "\\X2\\" + hexadecimal(code, 4) + "\\X0\\";
    } else if (code < 0x20U) {
      literal += "\\X\\" + hexadecimal(code, 2);
    } else {
      literal.append(code == '\'' || code == '\\' ? 2 : 1, static_cast<char>(code));
    }
  }
  return literal + "'";
}

struct StepPanel {
  std::uint64_t number = 0;
  std::string owner_history;  ///< `#5` or `$`
};

/// The text as a list of statements, of which those that matter are kept.
class StepText {
 public:
  StepText(std::string_view text, const std::vector<PanelResults>& results) : text_(text) {
    for (const PanelResults& panel : results) {
      wanted_.insert(panel.global_id);
      for (const StandardResults& set : panel.standard) wanted_sets_.insert(set.standing);
    }
    read();
  }

  std::string with(const std::vector<PanelResults>& results) {
    std::string added;
    for (const PanelResults& panel : results) add(panel, added);
    insertions_[end_of_data_] += added;
    std::string written;
    std::size_t at = 0;
    auto insertion = insertions_.begin();
    const auto copy_until = [&](std::size_t end) {
      for (; insertion != insertions_.end() && insertion->first <= end; ++insertion) {
        written += text_.substr(at, insertion->first - at);
        written += insertion->second;
        at = insertion->first;
      }
      written += text_.substr(at, end - at);
    };
    for (const auto& [begin, end] : outdated()) {
      copy_until(begin);
      at = end;
    }
    copy_until(text_.size());
    return written;
  }

 private:
  std::string_view text_;
  std::set<std::string, std::less<>> wanted_;
  std::set<std::string, std::less<>> wanted_sets_;  ///< GlobalIds of sets to add to
  std::map<std::string, StepPanel, std::less<>> panels_;
  std::vector<Statement> sets_;                                 ///< property and quantity sets of earlier results
  std::vector<std::string_view> standing_;                      ///< lists of the other ones, with their brackets
  std::map<std::string, std::string_view, std::less<>> lists_;  ///< of those to add to, by GlobalId
  std::vector<Statement> relations_;                            ///< IfcRelDefinesByProperties
  std::vector<Statement> values_;                               ///< IfcPropertySingleValue and quantities
  std::map<std::size_t, std::string> insertions_;
  std::vector<std::uint64_t> numbers_;
  std::set<std::uint64_t> removed_numbers_;
  std::string any_owner_history_ = "$";
  std::uint64_t highest_ = 0;
  std::size_t end_of_data_ = 0;
  bool is_ifc2x3_ = false;

  void read() {
    const std::size_t data = section_start();
    std::size_t at = data;
    while (true) {
      const std::size_t end = find_outside(text_, at, [](char c) { return c == ';'; });
      if (end == text_.size()) throw std::runtime_error("the data section of the export has no end");
      const std::size_t begin = statement_start(at, end);
      const std::string_view statement = trimmed(text_.substr(begin, end - begin));
      if (upper_case(statement.substr(0, 6)) == "ENDSEC") {
        end_of_data_ = begin;
        break;
      }
      if (statement.starts_with('#')) take(begin, end + 1);
      at = end + 1;
    }
    // What will be taken out does not count: writing again gives the same numbers.
    removed_numbers_ = removed();
    for (const std::uint64_t number : numbers_) {
      if (!removed_numbers_.contains(number)) highest_ = std::max(highest_, number);
    }
  }

  std::size_t section_start() {
    std::size_t at = 0;
    while (at < text_.size()) {
      const std::size_t end = find_outside(text_, at, [](char c) { return c == ';'; });
      const std::string statement = upper_case(without_comments_in_front(text_.substr(at, end - at)));
      if (statement.starts_with("FILE_SCHEMA")) is_ifc2x3_ = statement.find("'IFC2X3") != std::string::npos;
      if (statement == "DATA" || statement.starts_with("DATA(")) return end + 1;
      at = end + 1;
    }
    throw std::runtime_error("the export has no data section");
  }

  /// Behind white space and comments.
  std::size_t statement_start(std::size_t at, std::size_t end) const {
    const std::string_view statement = without_comments_in_front(text_.substr(at, end - at));
    return static_cast<std::size_t>(statement.data() - text_.data());
  }

  void take(std::size_t begin, std::size_t end) {
    Statement statement;
    statement.begin = begin;
    statement.end = end;
    const std::string_view whole = text_.substr(begin, end - begin);
    statement.number = number_behind(whole.substr(1));
    numbers_.push_back(statement.number);
    const std::size_t equals = find_outside(whole, 0, [](char c) { return c == '='; });
    const std::size_t open = find_outside(whole, equals, [](char c) { return c == '('; });
    const std::size_t close = whole.rfind(')');
    if (close == std::string_view::npos || open >= close) return;
    statement.keyword = without_comments_in_front(whole.substr(equals + 1, open - equals - 1));
    statement.arguments = whole.substr(open + 1, close - open - 1);
    sort_in(statement);
  }

  void sort_in(const Statement& statement) {
    const std::string keyword = upper_case(trimmed(statement.keyword));
    if (keyword == "IFCOWNERHISTORY" && any_owner_history_ == "$") {
      any_owner_history_ = "#" + std::to_string(statement.number);
    } else if (keyword == "IFCPROPERTYSET" || keyword == "IFCELEMENTQUANTITY") {
      take_set(statement);
    } else if (keyword == "IFCRELDEFINESBYPROPERTIES") {
      relations_.push_back(statement);
    } else if (keyword == "IFCPROPERTYSINGLEVALUE" || keyword.starts_with("IFCQUANTITY")) {
      values_.push_back(statement);
    } else {
      take_panel(statement);
    }
  }

  void take_set(const Statement& statement) {
    constexpr std::size_t kName = 2;
    constexpr std::size_t kDescription = 3;
    const auto arguments = arguments_of(statement.arguments);
    if (arguments.size() <= kDescription) return;
    const bool is_ours = arguments[kName] == "'" + std::string(kResultsSet) + "'" || is_marked(arguments[kDescription]);
    if (is_ours) {
      sets_.push_back(statement);
      return;
    }
    standing_.push_back(arguments.back());
    constexpr std::size_t kQuotes = 2;
    if (arguments.front().size() < kQuotes) return;
    const std::string_view id = arguments.front().substr(1, arguments.front().size() - kQuotes);
    if (wanted_sets_.contains(id)) lists_.emplace(id, arguments.back());
  }

  static bool is_marked(std::string_view literal) {
    return literal.starts_with('\'') && literal.substr(1).starts_with(kWrittenBackMark);
  }

  void take_panel(const Statement& statement) {
    constexpr std::size_t kQuotedId = 24;
    const std::string_view first = trimmed(statement.arguments).substr(0, kQuotedId);
    if (first.size() != kQuotedId || first.front() != '\'') return;
    const std::string_view id = first.substr(1, kQuotedId - 2);
    if (!wanted_.contains(id)) return;
    const auto arguments = arguments_of(statement.arguments);
    panels_.emplace(id, StepPanel{statement.number, arguments.size() > 1 ? std::string(arguments[1]) : "$"});
  }

  /// Numbers of the sets of earlier results, with their properties and relations.
  std::set<std::uint64_t> removed() const {
    std::set<std::uint64_t> numbers;
    std::set<std::uint64_t> of_sets;
    for (const Statement& set : sets_) {
      of_sets.insert(set.number);
      const auto arguments = arguments_of(set.arguments);
      for (const std::uint64_t property : references_in(arguments.back())) numbers.insert(property);
    }
    for (const Statement& relation : relations_) {
      const auto defined = references_in(arguments_of(relation.arguments).back());
      const bool is_ours = !defined.empty() && std::all_of(defined.begin(), defined.end(), [&](std::uint64_t number) {
        return of_sets.contains(number);
      });
      if (is_ours) numbers.insert(relation.number);
    }
    numbers.insert(of_sets.begin(), of_sets.end());
    for (const Statement& value : values_) {
      if (value.arguments.find(kWrittenBackMark) == std::string_view::npos) continue;
      const auto arguments = arguments_of(value.arguments);
      if (arguments.size() > 1 && is_marked(arguments[1])) numbers.insert(value.number);
    }
    return numbers;
  }

  /// Members of sets that stay which point to what goes, each with a comma beside it.
  void find_outdated_members(std::vector<std::pair<std::size_t, std::size_t>>& ranges) const {
    for (const std::string_view list : standing_) {
      const auto begin_of_list = static_cast<std::size_t>(list.data() - text_.data());
      std::size_t behind_last = 0;
      for (std::size_t at = list.find('#'); at != std::string_view::npos; at = list.find('#', at + 1)) {
        if (!removed_numbers_.contains(number_behind(list.substr(at + 1)))) continue;
        std::size_t end = std::min(list.find_first_not_of("0123456789", at + 1), list.size() - 1);
        const std::size_t comma = list.find_last_not_of(" \t\r\n", at - 1);
        const bool has_comma = list[comma] == ',' && comma >= behind_last;
        const std::size_t next = list.find_first_not_of(" \t\r\n", end);
        if (!has_comma && list[next] == ',') end = next + 1;
        ranges.emplace_back(begin_of_list + (has_comma ? comma : at), begin_of_list + end);
        behind_last = end;
      }
    }
  }

  /// Byte ranges to leave out, in order, each with the line break behind it.
  std::vector<std::pair<std::size_t, std::size_t>> outdated() const {
    std::vector<std::pair<std::size_t, std::size_t>> ranges;
    for (const auto* statements : {&sets_, &relations_, &values_}) {
      for (const Statement& statement : *statements) {
        if (!removed_numbers_.contains(statement.number)) continue;
        std::size_t end = statement.end;
        if (text_.substr(end, 1) == "\r") ++end;
        if (text_.substr(end, 1) == "\n") ++end;
        ranges.emplace_back(statement.begin, end);
      }
    }
    if (!removed_numbers_.empty()) find_outdated_members(ranges);
    std::sort(ranges.begin(), ranges.end());
    return ranges;
  }

  std::string owner_history_of(const StepPanel& panel) const {
    if (!is_ifc2x3_) return "$";
    const std::string& owner = panel.owner_history.starts_with('#') ? panel.owner_history : any_owner_history_;
    if (owner == "$") throw std::runtime_error("the export is IFC2X3 and has no IfcOwnerHistory to use");
    return owner;
  }

  /// A new instance at the end of `written`; gives the reference to it.
  std::string line(const std::string& instance, std::string& written) {
    written += "#" + std::to_string(++highest_) + "=" + instance + ";\n";
    return "#" + std::to_string(highest_);
  }

  std::string property(const ResultProperty& property, std::string& written) {
    const std::string type(type_of(property));
    const double* number = std::get_if<double>(&property.value);
    const std::string literal =
        number != nullptr ? real_text(*number) : step_literal(std::get<std::string>(property.value));
    const std::string name = step_literal(property.name);
    const std::string description = property.description.empty() ? "$" : step_literal(property.description);
    if (find_quantity(type) == nullptr) {
      const std::string value = joined({upper_case(type), "(", literal, ")"}, "");
      return line("IFCPROPERTYSINGLEVALUE(" + joined({name, description, value, "$"}, ",") + ")", written);
    }
    // IFC2X3 has no formula behind the number.
    const char* formula = is_ifc2x3_ ? ")" : ",$)";
    return line(upper_case(type) + "(" + joined({name, description, "$", literal}, ",") + formula, written);
  }

  /// References to new instances of the properties.
  std::vector<std::string> properties(const std::vector<ResultProperty>& list, std::string& written) {
    std::vector<std::string> references;
    references.reserve(list.size());
    for (const ResultProperty& one : list) references.push_back(property(one, written));
    return references;
  }

  void add_to_standing(const StandardResults& results, std::string& written) {
    const auto found = lists_.find(results.standing);
    if (found == lists_.end()) {
      throw std::runtime_error("the export has no property set with the GlobalId '" + results.standing + "'");
    }
    const std::string_view list = found->second;
    const auto members = references_in(list);
    const bool is_emptied = std::all_of(members.begin(), members.end(),
                                        [&](std::uint64_t number) { return removed_numbers_.contains(number); });
    const std::size_t close = static_cast<std::size_t>(list.data() - text_.data()) + list.rfind(')');
    insertions_[close] += (is_emptied ? "" : ",") + joined(properties(results.properties, written), ",");
  }

  void add(const PanelResults& panel, std::string& written) {
    const auto found = panels_.find(panel.global_id);
    if (found == panels_.end()) {
      throw std::runtime_error("the export has no instance with the GlobalId '" + panel.global_id + "'");
    }
    const std::string owner = owner_history_of(found->second);
    const auto add_set = [&](const StandardResults& set, const std::string& purpose, const std::string& description) {
      const bool is_of_quantities = holds_quantities(set);
      const std::string members = joined(properties(set.properties, written), ",");
      const std::string reference =
          line((is_of_quantities ? "IFCELEMENTQUANTITY('" : "IFCPROPERTYSET('") +
                   derived_global_id(panel.global_id, purpose) + "'," + owner + "," + step_literal(set.set) + "," +
                   description + (is_of_quantities ? ",$,(" : ",(") + members + "))",
               written);
      line("IFCRELDEFINESBYPROPERTIES('" + derived_global_id(panel.global_id, "has " + purpose) + "'," + owner +
               ",$,$,(#" + std::to_string(found->second.number) + ")," + reference + ")",
           written);
    };
    add_set({std::string(kResultsSet), {}, panel.properties}, "results", "$");
    for (const StandardResults& set : panel.standard) {
      if (set.standing.empty()) {
        add_set(set, set.set, step_literal(kSetDescription));
      } else {
        add_to_standing(set, written);
      }
    }
  }
};

}  // namespace

std::string step_with_results(std::string_view text, const std::vector<PanelResults>& results) {
  return StepText(text, results).with(results);
}

}  // namespace panel_dossier
