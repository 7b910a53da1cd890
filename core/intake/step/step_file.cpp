#include "core/intake/step/step_file.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cstring>
#include <exception>
#include <optional>
#include <string>

#include "core/intake/step/step_text.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kStepMark = "ISO-10303-21";
constexpr std::string_view kStepByteOrderMark = "\xEF\xBB\xBF";
constexpr std::string_view kStepEndMark = "END-ISO-10303-21";
/// The longest name of an entity in the three schemas has 55 letters.
constexpr std::size_t kLongestStepKeyword = 80;
/// Numbers are looked up in a table as long as no more than this many of its places are empty for each in use.
constexpr std::uint64_t kSparsestNumbers = 4;

/// The keyword in upper case; empty when it is longer than any.
std::string_view upper_case_keyword(std::string_view word, std::array<char, kLongestStepKeyword>& buffer) {
  if (word.size() > buffer.size()) return {};
  std::transform(word.begin(), word.end(), buffer.begin(),
                 [](char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); });
  return {buffer.data(), word.size()};
}

/// Characters at which the search for the end of an instance has to look.
constexpr std::array<bool, 256> kStepStops = [] {
  std::array<bool, 256> stops{};
  for (const char c : {';', '\'', '/'}) stops[static_cast<unsigned char>(c)] = true;
  return stops;
}();

/// The semicolon that ends the instance; null when there is none before the end of the text.
const char* step_instance_end(const char* at, const char* end) {
  while (at < end) {
    if (!kStepStops[static_cast<unsigned char>(*at)]) {
      ++at;
    } else if (*at == ';') {
      return at;
    } else if (*at == '\'') {
      at = after_step_string(at, end);
      if (at == nullptr) return nullptr;
    } else {
      const char* after = after_step_blanks(at, end);
      at = after == at ? at + 1 : after;
    }
  }
  return nullptr;
}

}  // namespace

/// One pass over the text. It stops at the first thing that cannot be a STEP file.
class StepFile::Indexer {
 public:
  Indexer(StepFile& file, const std::filesystem::path& schema_dir, Reporter& report)
      : file_(file), schema_dir_(schema_dir), report_(report), at_(file.begin()), end_(file.end()) {}

  bool run() {
    if (file_.text_.starts_with(kStepByteOrderMark)) {
      at_ += kStepByteOrderMark.size();
      report_.file_warning("the file begins with a byte order mark, which a STEP file does not have",
                           "export it without; it is read all the same");
    }
    if (!mark(kStepMark)) return refuse("the file does not begin with 'ISO-10303-21;'");
    if (!header()) return false;
    constexpr std::ptrdiff_t kUsualInstance_bytes = 48;
    file_.instances_.reserve(static_cast<std::size_t>((end_ - at_) / kUsualInstance_bytes));
    return sections();
  }

 private:
  StepFile& file_;
  const std::filesystem::path& schema_dir_;
  Reporter& report_;
  const char* at_;
  const char* end_;

  bool refuse(const std::string& what, const char* advice = "export it again: it may be truncated or damaged") {
    const auto offset = static_cast<std::size_t>(at_ - file_.begin());
    if (file_.schema_ != nullptr) {
      file_.break_off_ = BreakOff{offset, what};
    } else {
      report_.error_at_offset(offset, what, advice);
    }
    return false;
  }

  void pass_blanks() { at_ = after_step_blanks(at_, end_); }

  bool take(char c) {
    pass_blanks();
    if (at_ == end_ || *at_ != c) return false;
    ++at_;
    return true;
  }

  /// The next word, in upper case, with the hyphens that the marks of the file have.
  std::string word() {
    pass_blanks();
    const char* from = at_;
    while (at_ < end_ && (is_step_letter(*at_) || is_step_digit(*at_) || *at_ == '-')) ++at_;
    std::string found(from, std::min<std::size_t>(static_cast<std::size_t>(at_ - from), kLongestStepKeyword));
    for (char& c : found) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return found;
  }

  /// That word with a semicolon behind it; else nothing is taken.
  bool mark(std::string_view name) {
    const char* from = at_;
    if (word() == name && take(';')) return true;
    at_ = from;
    pass_blanks();
    return false;
  }

  bool header() {
    if (!mark("HEADER")) return refuse("the HEADER section is missing");
    std::vector<std::string> schema_names;
    while (!mark("ENDSEC")) {
      const std::string name = word();
      pass_blanks();
      const char* arguments = at_;
      if (name.empty() || at_ == end_ || *at_ != '(') return refuse("the HEADER section is not read further than this");
      at_ = after_step_list(at_, end_);
      if (!take(';')) return refuse("the HEADER section is not read further than this");
      if (name == "FILE_SCHEMA") add_strings(arguments, schema_names);
    }
    return choose_schema(schema_names);
  }

  /// The strings from there to what is read next.
  void add_strings(const char* from, std::vector<std::string>& found) const {
    for (const char* open = std::find(from, at_, '\''); open != at_; open = std::find(from, at_, '\'')) {
      const char* close = after_step_string(open, at_);
      if (close == nullptr) return;
      StepStringFaults faults;
      const std::string_view quoted(open, static_cast<std::size_t>(close - open));
      found.push_back(decode_step_string(quoted, StepBytes::latin1, faults));
      from = close;
    }
  }

  bool choose_schema(const std::vector<std::string>& names) {
    constexpr const char* kAdvice = "export IFC2X3, IFC4 or IFC4X3";
    if (names.empty()) return refuse("FILE_SCHEMA names no schema", kAdvice);
    const std::string& name = names.front();
    // Some exporters add the schema's object identifier behind its name.
    const Generation generation = generation_of_schema_name(name.substr(0, name.find_first_of(" {")));
    if (generation == Generation::unknown) {
      return refuse("the schema '" + name.substr(0, 60) + "' is not one that is read", kAdvice);
    }
    if (names.size() > 1) {
      report_.file_warning("FILE_SCHEMA names '" + name.substr(0, 60) + "', which is used, and '" +
                               names[1].substr(0, 60) + "', which is not",
                           "name the one schema that the file keeps to");
    }
    try {
      file_.schema_ = &step_schema(schema_dir_, generation);
    } catch (const std::exception& fault) {
      report_.file_error(0, 0, fault.what(), "the program needs its tables of the standard's schemas");
      return false;
    }
    return true;
  }

  bool sections() {
    bool has_data = false;
    while (true) {
      pass_blanks();
      const char* from = at_;
      const std::string name = word();
      if (name == kStepEndMark && take(';')) {
        warn_of_rest();
        return has_data || refuse("the file has no DATA section");
      }
      if (name == "DATA") {
        pass_blanks();
        if (at_ < end_ && *at_ == '(') at_ = after_step_list(at_, end_);
        if (!take(';')) return refuse("a semicolon is missing after DATA");
        if (!instances()) return false;
        has_data = true;
      } else if (name == "ANCHOR" || name == "REFERENCE" || name == "SIGNATURE") {
        if (!skip_section(name)) return false;
      } else {
        at_ = from;
        if (at_ == end_) return refuse("the file ends without 'END-ISO-10303-21;'");
        return refuse("a section or 'END-ISO-10303-21;' is expected here");
      }
    }
  }

  void warn_of_rest() {
    pass_blanks();
    if (at_ == end_) return;
    report_.file_warning(std::to_string(end_ - at_) + " bytes behind 'END-ISO-10303-21;' are not read",
                         "take them out; of two files put together only the first is read");
  }

  bool skip_section(const std::string& name) {
    constexpr std::string_view kEnd = "ENDSEC;";
    const std::string_view rest(at_, static_cast<std::size_t>(end_ - at_));
    const std::size_t close = rest.find(kEnd);
    if (close == std::string_view::npos) return refuse("the section " + name + " is not closed");
    at_ += close + kEnd.size();
    report_.file_warning("the section " + name + " is not read", "what only it says is unknown to the program");
    return true;
  }

  bool instances() {
    while (true) {
      pass_blanks();
      if (at_ == end_) return refuse("the file ends within its DATA section");
      if (*at_ != '#') {
        return mark("ENDSEC") || refuse("an instance '#…=' or 'ENDSEC;' is expected here");
      }
      if (!instance()) return false;
    }
  }

  bool instance() {
    StepInstance found;
    found.offset = static_cast<std::uint32_t>(at_ - file_.begin());
    const auto [behind, status] = std::from_chars(at_ + 1, end_, found.number);
    if (status != std::errc()) return refuse("'#' is not followed by a number of an instance");
    at_ = behind;
    if (!take('=')) return refuse("'=' is expected after #" + std::to_string(found.number));
    pass_blanks();
    const char* keyword = at_;
    at_ = after_step_word(at_, end_);
    if (at_ == keyword) {
      found.is_simple = false;
      if (at_ == end_ || (*at_ != '(' && *at_ != '!')) {
        return refuse("an entity is expected after #" + std::to_string(found.number) + "=");
      }
    } else {
      std::array<char, kLongestStepKeyword> buffer;
      found.entity =
          file_.schema_->find_entity(upper_case_keyword({keyword, static_cast<std::size_t>(at_ - keyword)}, buffer));
      pass_blanks();
      if (at_ == end_ || *at_ != '(') {
        return refuse("'(' is expected after the entity of #" + std::to_string(found.number));
      }
      const auto arguments = static_cast<std::size_t>(at_ + 1 - file_.begin()) - found.offset;
      if (arguments <= std::numeric_limits<std::uint8_t>::max()) found.arguments = static_cast<std::uint8_t>(arguments);
    }
    const char* close = step_instance_end(at_, end_);
    if (close == nullptr) {
      at_ = file_.begin() + found.offset;
      return refuse("the file breaks off within #" + std::to_string(found.number) +
                    ", or a string in it is not closed");
    }
    at_ = close + 1;
    file_.instances_.push_back(found);
    return true;
  }
};

bool StepFile::read(const std::filesystem::path& schema_dir, Reporter& report) {
  if (text_.size() > kLargest_bytes) {
    report.file_error(0, 0, "the file is larger than 4 GiB", "export the building in parts");
    return false;
  }
  const bool has_mark = text_.starts_with(kStepByteOrderMark);
  bytes_ = step_bytes_of(has_mark ? text_.substr(kStepByteOrderMark.size()) : text_);
  if (bytes_ != StepBytes::ascii) {
    report.file_warning(std::string("strings hold bytes above 126; they are read as ") +
                            (bytes_ == StepBytes::utf8 ? "UTF-8" : "ISO 8859-1"),
                        "let the exporter write them as \\X2\\…\\X0\\");
  }
  if (Indexer(*this, schema_dir, report).run()) {
    index_numbers(report);
    return true;
  }
  return break_off_.has_value();
}

void StepFile::index_numbers(Reporter& report) {
  std::uint64_t largest = 0;
  for (const StepInstance& instance : instances_) largest = std::max(largest, instance.number);
  const auto report_second = [&](std::uint32_t second, std::uint32_t first) {
    report.error(element(second),
                 "the number #" + std::to_string(instances_[second].number) + " is used twice, first at line " +
                     std::to_string(report.line(element(first))),
                 "give every instance its own number");
  };
  if (largest / kSparsestNumbers <= instances_.size()) {
    by_number_.resize(static_cast<std::size_t>(largest) + 1);
    for (std::uint32_t i = 0; i < instances_.size(); ++i) {
      std::uint32_t& place = by_number_[static_cast<std::size_t>(instances_[i].number)];
      if (place != 0) {
        report_second(i, place - 1);
      } else {
        place = i + 1;
      }
    }
    return;
  }
  sorted_.reserve(instances_.size());
  for (std::uint32_t i = 0; i < instances_.size(); ++i) sorted_.emplace_back(instances_[i].number, i);
  std::sort(sorted_.begin(), sorted_.end());
  for (std::size_t i = 1; i < sorted_.size(); ++i) {
    if (sorted_[i].first == sorted_[i - 1].first) report_second(sorted_[i].second, sorted_[i - 1].second);
  }
}

std::uint32_t StepFile::find(std::uint64_t number) const {
  if (!by_number_.empty()) {
    return number < by_number_.size() ? by_number_[static_cast<std::size_t>(number)] - 1 : kNoStepInstance;
  }
  const auto found = std::lower_bound(sorted_.begin(), sorted_.end(), std::pair(number, std::uint32_t{0}));
  return found == sorted_.end() || found->first != number ? kNoStepInstance : found->second;
}

const StepEntity* StepFile::entity_of(std::uint32_t instance) const {
  const std::uint16_t entity = instances_[instance].entity;
  return entity == kNoStepEntity ? nullptr : &schema_->entity(entity);
}

const char* StepFile::keyword_of(std::uint32_t instance) const {
  const char* at = begin() + instances_[instance].offset + 1;
  while (is_step_digit(*at)) ++at;
  at = after_step_blanks(at, end());
  return after_step_blanks(at + 1, end());  // behind the equals sign, which the index has seen
}

const char* StepFile::arguments_of(std::uint32_t instance) const {
  const StepInstance& found = instances_[instance];
  if (found.arguments != 0) return begin() + found.offset + found.arguments;
  const char* at = after_step_word(keyword_of(instance), end());
  return after_step_blanks(at, end()) + 1;
}

Element StepFile::element(std::uint32_t instance) const {
  return Element(*this, begin() + instances_[instance].offset, instance, Element::kWholeInstance);
}

}  // namespace panel_dossier
