// What a handle in a STEP file answers. The syntax of the file was checked before.
#include <array>
#include <cctype>
#include <charconv>

#include "core/intake/graph/element.h"
#include "core/intake/step/step_file.h"
#include "core/intake/step/step_text.h"

namespace panel_dossier {

namespace {

bool is_absent(const char* at, const char* end) {
  return at == end || *at == '$' || *at == '*' || *at == ')' || *at == ',';
}

/// Behind the bracket of the typed parameter `IFCLABEL('x')` at `at`, past blanks.
const char* inside_typed(const char* at, const char* end) {
  at = after_step_blanks(after_step_word(at, end), end);
  return at == end ? end : after_step_blanks(at + 1, end);
}

/// The first item of the list at `at` that is given; `end` when there is none.
const char* first_item(const char* at, const char* end) {
  at = after_step_blanks(at + 1, end);
  while (at < end && is_absent(at, end)) {
    if (*at == ')') return end;
    at = after_step_blanks(at + 1, end);
  }
  return at;
}

/// The next item of the list that the value at `at` stands in; `end` when there is none.
const char* next_item(const char* at, const char* end) {
  at = after_step_value(at, end);
  while (at < end && *at != ')') {
    at = after_step_blanks(at + 1, end);
    if (!is_absent(at, end)) return at;
  }
  return end;
}

std::string_view step_word_at(const char* at, const char* end) {
  return {at, static_cast<std::size_t>(after_step_word(at, end) - at)};
}

}  // namespace

Element Element::step_value(const char* at, std::uint32_t attribute) const {
  return at >= step()->end() ? Element() : Element(*step(), at, instance_, attribute);
}

Element Element::step_argument(std::uint32_t position) const {
  const char* end = step()->end();
  const StepEntity* entity = step()->entity_of(instance_);
  if (entity == nullptr) return {};
  const char* at = after_step_blanks(step()->arguments_of(instance_), end);
  for (std::uint32_t i = 0; i < position; ++i) {
    at = after_step_value(at, end);
    if (at == end || *at != ',') return {};
    at = after_step_blanks(at + 1, end);
  }
  return is_absent(at, end) ? Element() : step_value(at, position);
}

Element Element::step_child(std::string_view name) const {
  if (attribute_ != kWholeInstance) return {};
  const StepEntity* entity = step()->entity_of(instance_);
  if (entity == nullptr) return {};
  if (entity->is_rooted && name == "GlobalId") return step_argument(0);
  for (std::uint32_t i = 0; i < entity->attributes.size(); ++i) {
    if (entity->attributes[i].name == name) return step_argument(i);
  }
  return {};
}

std::string_view Element::step_name() const {
  const StepEntity* entity = step()->entity_of(instance_);
  if (entity == nullptr) return {};
  if (attribute_ == kWholeInstance) return entity->name;
  if (attribute_ < entity->attributes.size()) return entity->attributes[attribute_].name;
  if (!is_step_letter(*step_at())) return {};
  std::array<char, 80> buffer;
  const std::string_view word = step_word_at(step_at(), step()->end());
  if (word.size() > buffer.size()) return {};
  for (std::size_t i = 0; i < word.size(); ++i) {
    buffer[i] = static_cast<char>(std::toupper(static_cast<unsigned char>(word[i])));
  }
  const StepSchema::DefinedType* type = step()->schema().find_type({buffer.data(), word.size()});
  return type == nullptr ? std::string_view() : type->name;
}

Element Element::step_first_child() const {
  const char* end = step()->end();
  if (attribute_ == kWholeInstance) {
    const StepEntity* entity = step()->entity_of(instance_);
    for (std::uint32_t i = 0; entity != nullptr && i < entity->attributes.size(); ++i) {
      if (const Element found = step_argument(i)) return found;
    }
    return {};
  }
  const char* at = step_at();
  if (*at == '(') return step_value(first_item(at, end), kListItem);
  if (!is_step_letter(*at)) return {};
  const char* inside = inside_typed(at, end);
  const bool holds_list = inside < end && *inside == '(';
  const char* item = holds_list ? first_item(inside, end) : inside;
  // IFCPROPERTYSETDEFINITIONSET((#1,#2)) stands for the set.
  const bool is_set = holds_list && item < end && *item == '#';
  const bool is_type = attribute_ == kSingleValue || attribute_ == kListItem;
  if (is_set) return step_value(item, kListItem);
  if (!is_type) return step_value(at, kSingleValue);
  if (holds_list) return step_value(item, kListItem);
  return inside < end && is_step_letter(*inside) ? step_value(inside, kSingleValue) : Element();
}

Element Element::step_next_sibling() const {
  const char* end = step()->end();
  if (attribute_ == kWholeInstance || attribute_ == kSingleValue) return {};
  if (attribute_ == kListItem) return step_value(next_item(step_at(), end), kListItem);
  const StepEntity* entity = step()->entity_of(instance_);
  const char* at = step_at();
  for (std::uint32_t i = attribute_ + 1; i < entity->attributes.size(); ++i) {
    at = after_step_value(at, end);
    if (at == end || *at != ',') return {};
    at = after_step_blanks(at + 1, end);
    if (!is_absent(at, end)) return step_value(at, i);
  }
  return {};
}

std::optional<std::string_view> Element::step_reference() const {
  if (attribute_ == kWholeInstance || *step_at() != '#') return std::nullopt;
  const char* at = step_at() + 1;
  while (at < step()->end() && is_step_digit(*at)) ++at;
  return std::string_view(step_at() + 1, static_cast<std::size_t>(at - step_at() - 1));
}

Element Element::step_instance() const {
  if (!is_step() || attribute_ == kWholeInstance) return is_step() ? *this : Element();
  return step()->element(instance_);
}

Element Element::step_target() const {
  const auto digits = is_step() ? step_reference() : std::nullopt;
  if (!digits) return {};
  std::uint64_t number = 0;
  std::from_chars(digits->data(), digits->data() + digits->size(), number);
  const std::uint32_t found = step()->find(number);
  return found == kNoStepInstance ? Element() : step()->element(found);
}

std::uint64_t Element::step_number() const {
  return !is_step() ? 0 : step()->instances()[instance_].number;
}

std::optional<std::string_view> Element::step_plain_text() const {
  const char* end = step()->end();
  const char* at = step_at();
  if (attribute_ == kWholeInstance) return std::string_view();
  for (int depth = 0; at < end && is_step_letter(*at) && depth < kMaxStepListDepth; ++depth) at = inside_typed(at, end);
  if (at == end || *at == '(' || *at == '#') return std::string_view();
  const char* close = at + 1;
  if (*at == '\'') {
    close = after_step_string(at, end);
    if (close == nullptr) return std::string_view();  // asked for a message about just that
    const std::string_view quoted(at, static_cast<std::size_t>(close - at));
    if (!is_plain_step_string(quoted)) return std::nullopt;
    return quoted.substr(1, quoted.size() - 2);
  }
  if (*at == '.' || *at == '"') {
    while (close < end && *close != *at) ++close;
    return std::string_view(at + 1, static_cast<std::size_t>(close - at - 1));
  }
  while (close < end &&
         (is_step_digit(*close) || is_step_letter(*close) || *close == '.' || *close == '-' || *close == '+')) {
    ++close;
  }
  return std::string_view(at, static_cast<std::size_t>(close - at));
}

std::string Element::step_text() const {
  if (const auto plain = step_plain_text()) return std::string(*plain);
  const char* at = step_at();
  while (*at != '\'') ++at;  // only a string is not plain; types may stand before it
  const char* close = after_step_string(at, step()->end());
  StepStringFaults faults;
  return decode_step_string({at, static_cast<std::size_t>(close - at)}, step()->bytes(), faults);
}

std::size_t Element::step_offset() const {
  return static_cast<std::size_t>(step_at() - step()->begin());
}

}  // namespace panel_dossier
