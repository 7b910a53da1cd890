#include "core/intake/step/step_check.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cstring>
#include <future>
#include <map>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "core/intake/step/step_findings.h"
#include "core/intake/step/step_text.h"

namespace panel_dossier {

namespace {

/// As many as Reporter lists; a hostile file could hold millions.
constexpr std::size_t kMostStepFaults = 1000;
/// Below this a second thread costs more than it saves.
constexpr std::size_t kInstancesPerThread = 20'000;
constexpr unsigned kMostStepThreads = 8;
constexpr std::size_t kLongestQuotedValue = 40;

std::string quoted_value(const char* from, const char* to) {
  const std::string_view text(from, static_cast<std::size_t>(to - from));
  return "'" + std::string(text.substr(0, kLongestQuotedValue)) + (text.size() > kLongestQuotedValue ? "…'" : "'");
}

std::string_view words_of(StepKind kind) {
  switch (kind) {
    case StepKind::entity: return "a reference";
    case StepKind::text: return "a text";
    case StepKind::real:
    case StepKind::integer:
    case StepKind::number: return "a number";
    case StepKind::boolean: return "'.T.' or '.F.'";
    case StepKind::logical: return "'.T.', '.F.' or '.U.'";
    case StepKind::enumeration: return "a value of its enumeration";
    case StepKind::binary: return "a binary";
    case StepKind::select: break;
  }
  return "a reference or a typed value";
}

/// Parses the arguments of one instance after the other. Belongs to one thread.
class StepChecker {
 public:
  explicit StepChecker(const StepFile& file) : file_(file), end_(file.end()) {}

  bool has_syntax_fault() const { return found_.has_syntax_fault; }

  void check(std::uint32_t instance) {
    instance_ = instance;
    has_breach_ = false;
    entity_ = file_.entity_of(instance);
    at_ = file_.keyword_of(instance);
    if (!file_.instances()[instance].is_simple) {
      habit(StepHabit::not_simple);
      if (!external_mapping()) return;
    } else {
      if (entity_ == nullptr) unknown_entity();
      if (entity_ != nullptr && entity_->is_abstract) {
        breach(at_, "is abstract: no instance can be of it", "export the entity that is meant");
      }
      at_ = file_.arguments_of(instance);
      if (!arguments()) return;
    }
    pass_blanks();
    if (at_ == end_ || *at_ != ';') syntax("';' is expected here");
  }

  StepFindings take() { return std::move(found_); }

 private:
  const StepFile& file_;
  const char* end_;
  const char* at_ = nullptr;
  std::uint32_t instance_ = 0;
  const StepEntity* entity_ = nullptr;
  const StepAttribute* attribute_ = nullptr;
  bool has_breach_ = false;
  StepFindings found_;

  void pass_blanks() { at_ = after_step_blanks(at_, end_); }
  bool at_char(char c) const { return at_ < end_ && *at_ == c; }

  void habit(StepHabit which, std::uint32_t times = 1) {
    if (times != 0) found_.habits[static_cast<std::size_t>(which)].add(instance_, times);
  }

  void add(const char* at, bool is_syntax, std::string message, std::string advice) {
    found_.has_syntax_fault = found_.has_syntax_fault || is_syntax;
    if (file_.break_off() && !is_syntax) return;  // without the whole index nothing is known about references
    if (found_.faults.size() >= kMostStepFaults) {
      ++found_.unlisted;
      return;
    }
    found_.faults.push_back({instance_, at, is_syntax, std::move(message), std::move(advice)});
  }

  bool syntax(std::string what, const char* advice = "export it again: it may be truncated or damaged") {
    add(at_, true, std::move(what), advice);
    return false;
  }

  /// One an instance: after the first the others are mostly its consequence.
  void breach(const char* at, const std::string& what, std::string advice) {
    if (has_breach_) return;
    has_breach_ = true;
    if (entity_ != nullptr && !entity_->is_read) {
      const std::uint16_t entity = file_.instances()[instance_].entity;
      found_.unread[entity].add(instance_);
      found_.first_unread.try_emplace(entity, what);
      return;
    }
    add(at, false, "breaks the schema: " + what, std::move(advice));
  }

  void breach_of_value(const char* at, const std::string& what) {
    const std::string name = attribute_ == nullptr ? std::string("a value") : std::string(attribute_->name);
    breach(at, name + " " + what, "export it as the standard writes it");
  }

  void unknown_entity() {
    const char* behind = after_step_word(at_, end_);
    breach(at_, quoted_value(at_, behind) + " is no entity of " + to_string(file_.schema().generation()),
           "name the schema in FILE_SCHEMA that the file keeps to");
  }

  /// `(A(…)B(…))` and `!NAME(…)`: the syntax only.
  bool external_mapping() {
    if (at_char('!')) {
      ++at_;
      return entity_part();
    }
    ++at_;
    for (pass_blanks(); at_ < end_ && is_step_letter(*at_); pass_blanks()) {
      if (!entity_part()) return false;
    }
    if (!at_char(')')) return syntax("')' is expected here");
    ++at_;
    return true;
  }

  bool entity_part() {
    at_ = after_step_word(at_, end_);
    pass_blanks();
    if (!at_char('(')) return syntax("'(' is expected here");
    ++at_;
    return arguments();
  }

  bool arguments() {
    const std::size_t faults_before = found_.faults.size();
    std::uint32_t count = 0;
    bool is_extra_absent = true;
    pass_blanks();
    if (!at_char(')')) {
      while (true) {
        pass_blanks();
        attribute_ = entity_ != nullptr && count < entity_->attributes.size() ? &entity_->attributes[count] : nullptr;
        if (entity_ != nullptr && count >= entity_->argument_count && !at_char('$')) is_extra_absent = false;
        if (!value(attribute_ == nullptr ? nullptr : &attribute_->type, 0)) return false;
        ++count;
        pass_blanks();
        if (at_char(')')) break;
        if (!at_char(',')) return syntax("',' or ')' is expected here");
        ++at_;
      }
    }
    ++at_;
    if (entity_ != nullptr && count != entity_->argument_count) wrong_count(count, faults_before, is_extra_absent);
    return true;
  }

  /// With an argument too many or too few the others stand in the wrong places, so only that is told.
  void wrong_count(std::uint32_t count, std::size_t faults_before, bool is_extra_absent) {
    // IFC4 ADD2 TC1 has no TagList yet; some exporters write its place already.
    const bool is_point_list = entity_->name == "IfcCartesianPointList2D" || entity_->name == "IfcCartesianPointList3D";
    if (is_point_list && is_extra_absent && count == entity_->argument_count + 1U) return;
    if (entity_->is_read || !has_breach_) {
      found_.faults.resize(std::min(faults_before, found_.faults.size()));
      has_breach_ = false;
    }
    breach(file_.keyword_of(instance_),
           "has " + std::to_string(count) + " arguments where " + to_string(file_.schema().generation()) + " has " +
               std::to_string(entity_->argument_count),
           "name the schema in FILE_SCHEMA that the file keeps to");
  }

  /// Calls itself as deep as lists are nested, which is capped.
  bool value(const StepType* type, int depth) {
    if (at_ == end_) return syntax("a value is expected here");
    switch (*at_) {
      case '$': return absent(depth);
      case '*': return derived(depth);
      case '#': return reference(type, depth);
      case '\'': return text(type, depth);
      case '"': return binary(type, depth);
      case '.': return enumeration(type, depth);
      case '(': return list(type, depth);
      case '+':
      case '-': return number(type, depth);
      default: break;
    }
    if (is_step_digit(*at_)) return number(type, depth);
    if (is_step_letter(*at_)) return typed(type, depth);
    return syntax(quoted_value(at_, at_ + 1) + " begins no value");
  }

  bool absent(int depth) {
    const bool is_due = attribute_ != nullptr && depth == 0 && attribute_->presence == StepPresence::required;
    if (is_due) breach_of_value(at_, "is required and not given");
    ++at_;
    return true;
  }

  bool derived(int depth) {
    if (attribute_ != nullptr && depth == 0) {
      if (attribute_->presence == StepPresence::required) breach_of_value(at_, "is required and written '*'");
      if (attribute_->presence == StepPresence::optional) habit(StepHabit::star_for_absent);
    }
    ++at_;
    return true;
  }

  /// Whether a single value of one of these kinds is due at this depth of lists.
  bool is_due(const StepType* type, int depth, std::initializer_list<StepKind> kinds) const {
    return type == nullptr ||
           (type->levels == depth && std::find(kinds.begin(), kinds.end(), type->kind) != kinds.end());
  }

  void not_due(const StepType* type, int depth, const char* from) {
    const std::string due = type->levels > depth ? "a list" : std::string(words_of(type->kind));
    breach_of_value(from, "is " + quoted_value(from, at_) + " where " + due + " is due");
  }

  bool reference(const StepType* type, int depth) {
    const char* from = at_;
    std::uint64_t number = 0;
    const auto [behind, status] = std::from_chars(at_ + 1, end_, number);
    if (status != std::errc()) return syntax("'#' is not followed by a number of an instance");
    at_ = behind;
    const std::uint32_t target = file_.find(number);
    if (target == kNoStepInstance) {
      add(from, false, "#" + std::to_string(number) + " is no instance of this file",
          "export the entity as well, or remove the reference");
    } else if (!is_due(type, depth, {StepKind::entity, StepKind::select})) {
      not_due(type, depth, from);
    } else if (type != nullptr && type->kind == StepKind::entity) {
      const std::uint16_t entity = file_.instances()[target].entity;
      if (entity != kNoStepEntity && !file_.schema().is_a(entity, type->index)) {
        breach_of_value(from, "is " + quoted_value(from, at_) + ", an " +
                                  std::string(file_.schema().entity(entity).name) + ", where an " +
                                  std::string(file_.schema().entity(type->index).name) + " is due");
      }
    }
    return true;
  }

  bool text(const StepType* type, int depth) {
    const char* from = at_;
    const char* behind = after_step_string(at_, end_);
    if (behind == nullptr) return syntax("the string that begins here is not closed");
    at_ = behind;
    const std::string_view written(from, static_cast<std::size_t>(behind - from));
    if (!is_plain_step_string(written)) {
      StepStringFaults faults;
      decode_step_string(written, file_.bytes(), faults);
      habit(StepHabit::directive, faults.directives);
      habit(StepHabit::character, faults.characters);
      habit(StepHabit::line_break, faults.line_breaks);
    }
    if (!is_due(type, depth, {StepKind::text})) not_due(type, depth, from);
    return true;
  }

  bool binary(const StepType* type, int depth) {
    const char* from = at_++;
    if (at_ < end_ && (*at_ < '0' || *at_ > '3')) return syntax("a binary begins with a digit from 0 to 3");
    while (at_ < end_ && std::isxdigit(static_cast<unsigned char>(*at_)) != 0) ++at_;
    if (!at_char('"')) return syntax("a binary is not closed");
    ++at_;
    if (!is_due(type, depth, {StepKind::binary})) not_due(type, depth, from);
    return true;
  }

  bool enumeration(const StepType* type, int depth) {
    const char* from = at_++;
    if (at_ < end_ && is_step_digit(*at_)) return syntax("a number does not begin with its point", "write 0.5");
    const char* name = at_;
    at_ = after_step_word(at_, end_);
    if (at_ == name || !at_char('.')) return syntax("the value of an enumeration is not closed by a point");
    std::array<char, 64> buffer;
    const std::size_t size = std::min(static_cast<std::size_t>(at_ - name), buffer.size());
    std::transform(name, name + size, buffer.begin(),
                   [](char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); });
    ++at_;
    enumerated({buffer.data(), size}, type, depth, from);
    return true;
  }

  void enumerated(std::string_view value, const StepType* type, int depth, const char* from) {
    if (!is_due(type, depth, {StepKind::enumeration, StepKind::boolean, StepKind::logical})) {
      return not_due(type, depth, from);
    }
    if (type == nullptr) return;
    if (type->kind == StepKind::enumeration) {
      if (!file_.schema().has_value(type->index, value)) {
        breach_of_value(from, "is " + quoted_value(from, at_) + ", no value of " +
                                  std::string(file_.schema().enumeration_name(type->index)));
      }
    } else if (value != "T" && value != "F" && !(value == "U" && type->kind == StepKind::logical)) {
      not_due(type, depth, from);
    }
  }

  bool number(const StepType* type, int depth) {
    const char* from = at_;
    if (*at_ == '+' || *at_ == '-') ++at_;
    const char* digits = at_;
    while (at_ < end_ && is_step_digit(*at_)) ++at_;
    if (at_ == digits) return syntax("a sign is followed by no digit");
    const bool is_integer = !at_char('.');
    if (!is_integer && !fraction()) return false;
    if (at_ < end_ && is_step_letter(*at_)) return syntax("a number has a letter behind it");
    if (!is_due(type, depth, {StepKind::real, StepKind::integer, StepKind::number})) {
      not_due(type, depth, from);
    } else if (type != nullptr && type->kind == StepKind::integer && !is_integer) {
      breach_of_value(from, "is " + quoted_value(from, at_) + " where an integer is due");
    } else if (type != nullptr && type->kind == StepKind::real && is_integer) {
      habit(StepHabit::integer_for_real);
    }
    return true;
  }

  /// Point, digits and exponent.
  bool fraction() {
    ++at_;
    while (at_ < end_ && is_step_digit(*at_)) ++at_;
    if (!at_char('E') && !at_char('e')) return true;
    ++at_;
    if (at_char('+') || at_char('-')) ++at_;
    const char* digits = at_;
    while (at_ < end_ && is_step_digit(*at_)) ++at_;
    return at_ != digits || syntax("the exponent of a number has no digit");
  }

  bool list(const StepType* type, int depth) {
    if (depth >= kMaxStepListDepth) {
      return syntax("lists are nested more than " + std::to_string(kMaxStepListDepth) + " deep",
                    "no export needs that: check how the file was made");
    }
    const char* from = at_;
    const bool is_list_due = type == nullptr || type->levels > depth;
    ++at_;
    pass_blanks();
    if (!at_char(')')) {
      while (true) {
        pass_blanks();
        if (!value(is_list_due ? type : nullptr, depth + 1)) return false;
        pass_blanks();
        if (at_char(')')) break;
        if (!at_char(',')) return syntax("',' or ')' is expected here");
        ++at_;
      }
    }
    ++at_;
    if (!is_list_due) not_due(type, depth, from);
    return true;
  }

  bool typed(const StepType* type, int depth) {
    if (depth >= kMaxStepListDepth) return syntax("typed values are nested too deep");
    const char* from = at_;
    at_ = after_step_word(at_, end_);
    std::array<char, 80> buffer;
    const std::size_t size = std::min(static_cast<std::size_t>(at_ - from), buffer.size());
    std::transform(from, from + size, buffer.begin(),
                   [](char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); });
    const StepSchema::DefinedType* found = file_.schema().find_type({buffer.data(), size});
    if (found == nullptr) {
      breach_of_value(from, "has the type " + quoted_value(from, at_) + ", which is none of " +
                                to_string(file_.schema().generation()));
    }
    pass_blanks();
    if (!at_char('(')) return syntax("'(' is expected after the type of a value");
    ++at_;
    pass_blanks();
    if (!inside_typed_value(found, depth)) return false;
    pass_blanks();
    if (!at_char(')')) return syntax("')' is expected after a typed value");
    ++at_;
    if (type != nullptr && (type->kind != StepKind::select || type->levels != depth)) {
      habit(StepHabit::type_where_none_is_due);
    }
    return true;
  }

  /// The value inside is due as the type says, counted from its own depth.
  bool inside_typed_value(const StepSchema::DefinedType* found, int depth) {
    if (found == nullptr) return value(nullptr, depth + 1);
    StepType inner = found->type;
    inner.levels = static_cast<std::uint8_t>(inner.levels + depth + 1);
    return value(&inner, depth + 1);
  }
};

StepFindings check_range(const StepFile& file, std::uint32_t from, std::uint32_t to) {
  StepChecker checker(file);
  for (std::uint32_t i = from; i < to; ++i) checker.check(i);
  return checker.take();
}

std::vector<StepFindings> check_all(const StepFile& file) {
  const std::size_t count = file.instances().size();
  const std::size_t wanted = std::max<std::size_t>(count / kInstancesPerThread, 1);
  const std::size_t threads =
      std::min<std::size_t>({wanted, kMostStepThreads, std::max(std::thread::hardware_concurrency(), 1U)});
  std::vector<std::future<StepFindings>> running;
  running.reserve(threads);
  for (std::size_t i = 0; i < threads; ++i) {
    const auto from = static_cast<std::uint32_t>(count * i / threads);
    const auto to = static_cast<std::uint32_t>(count * (i + 1) / threads);
    // Where the system has no thread left, it is done by this one.
    const auto how = threads == 1 ? std::launch::deferred : std::launch::async | std::launch::deferred;
    running.push_back(std::async(how, check_range, std::cref(file), from, to));
  }
  std::vector<StepFindings> found;
  found.reserve(running.size());
  for (std::future<StepFindings>& each : running) found.push_back(each.get());
  return found;
}

/// The first thing that is wrong in a file whose index breaks off: nothing but that is told.
void report_break_off(const StepFile& file, Reporter& report) {
  StepChecker checker(file);
  for (std::uint32_t i = 0; i < file.instances().size() && !checker.has_syntax_fault(); ++i) checker.check(i);
  const StepFindings found = checker.take();
  if (found.has_syntax_fault) return report_fault(file, found.faults.front(), report);
  report.error_at_offset(file.break_off()->offset, file.break_off()->message,
                         "export it again: it may be truncated or damaged");
}

}  // namespace

bool check_step(const StepFile& file, Reporter& report) {
  if (file.break_off()) {
    report_break_off(file, report);
    return false;
  }
  return report_findings(file, check_all(file), report);
}

}  // namespace panel_dossier
