#include "plugins/fire/evidence/resistance_class.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace panel_dossier::fire {

namespace {

constexpr std::string_view kCriteria = "REIWM";
/// EN 13501-2:2016 5.2 (from memory).
constexpr std::array<int, 11> kPeriods_min{10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360};

std::string without_blanks(std::string_view text) {
  std::string result;
  for (const char c : text) {
    if (std::isspace(static_cast<unsigned char>(c)) == 0) result += c;
  }
  return result;
}

std::optional<FireDirection> parse_direction(std::string_view text) {
  if (text.empty()) return FireDirection::not_stated;
  if (text == "(i→o)" || text == "(i->o)") return FireDirection::inside_to_outside;
  if (text == "(o→i)" || text == "(o->i)") return FireDirection::outside_to_inside;
  for (const char* both : {"(i↔o)", "(o↔i)", "(i<->o)", "(o<->i)"}) {
    if (text == both) return FireDirection::both;
  }
  return std::nullopt;
}

/// Reads one group such as `REI60-M` into `result`; false when it is none.
bool read_group(std::string_view group, ResistanceClass& result) {
  if (group.ends_with("-M")) {
    group.remove_suffix(2);
    if (!read_group(group, result)) return false;
    const std::size_t digits = group.find_first_of("0123456789");
    result.minutes['M'] = std::stoi(std::string(group.substr(digits)));
    return true;
  }
  const std::size_t digits = group.find_first_of("0123456789");
  if (digits == 0 || digits == std::string_view::npos || group.size() - digits > 3) return false;
  const std::string_view number = group.substr(digits);
  if (number.find_first_not_of("0123456789") != std::string_view::npos) return false;
  const int minutes = std::stoi(std::string(number));
  if (std::find(kPeriods_min.begin(), kPeriods_min.end(), minutes) == kPeriods_min.end()) return false;
  for (const char letter : group.substr(0, digits)) {
    if (kCriteria.find(letter) == std::string_view::npos) return false;
    result.minutes[letter] = std::max(result.minutes[letter], minutes);
  }
  return true;
}

}  // namespace

int ResistanceClass::minutes_for(std::string_view criteria) const {
  int shortest = kPeriods_min.back();
  for (const char letter : criteria) {
    const auto found = minutes.find(letter);
    if (found == minutes.end()) return 0;
    shortest = std::min(shortest, found->second);
  }
  return criteria.empty() ? 0 : shortest;
}

bool ResistanceClass::meets(const ResistanceClass& required, std::string_view criteria) const {
  return std::all_of(criteria.begin(), criteria.end(), [&](char letter) {
    const std::string_view one(&letter, 1);
    return minutes_for(one) >= required.minutes_for(one);
  });
}

bool ResistanceClass::covers_direction_of(const ResistanceClass& required) const {
  return required.direction == FireDirection::not_stated || direction == FireDirection::both ||
         direction == required.direction;
}

std::optional<ResistanceClass> parse_resistance_class(std::string_view text) {
  const std::string compact = without_blanks(text);
  std::string_view rest = compact;
  ResistanceClass result;
  const std::size_t bracket = rest.find('(');
  if (bracket != std::string_view::npos) {
    const auto direction = parse_direction(rest.substr(bracket));
    if (!direction) return std::nullopt;
    result.direction = *direction;
    rest = rest.substr(0, bracket);
  }
  while (true) {
    const std::size_t end = rest.find('/');
    if (!read_group(rest.substr(0, end), result)) return std::nullopt;
    if (end == std::string_view::npos) return result;
    rest = rest.substr(end + 1);
  }
}

std::optional<std::vector<ResistanceClass>> parse_resistance_classes(std::string_view text) {
  std::vector<ResistanceClass> classes;
  while (true) {
    const std::size_t end = text.find(';');
    const auto one = parse_resistance_class(text.substr(0, end));
    if (!one) return std::nullopt;
    classes.push_back(*one);
    if (end == std::string_view::npos) return classes;
    text = text.substr(end + 1);
  }
}

namespace {

/// The shorter period of each criterion; a criterion that one of them lacks is not shown.
ResistanceClass shorter_of(const ResistanceClass& a, const ResistanceClass& b) {
  ResistanceClass result;
  for (const auto& [letter, minutes] : a.minutes) {
    const auto other = b.minutes.find(letter);
    if (other != b.minutes.end()) result.minutes[letter] = std::min(minutes, other->second);
  }
  return result;
}

/// What is shown for fire from this one side: of several classes for it the shorter periods, for one of them is wrong.
std::optional<ResistanceClass> shown_from(const std::vector<ResistanceClass>& classes, FireDirection side) {
  std::optional<ResistanceClass> shown;
  for (const ResistanceClass& one : classes) {
    if (one.direction != side && one.direction != FireDirection::both) continue;
    if (!shown) {
      shown = one;
    } else {
      shown = shorter_of(*shown, one);
      shown->direction = side;
    }
  }
  return shown;
}

}  // namespace

ResistanceClass class_for(const std::vector<ResistanceClass>& classes, FireDirection asked) {
  if (classes.size() == 1) return classes.front();
  const auto inside = shown_from(classes, FireDirection::inside_to_outside);
  const auto outside = shown_from(classes, FireDirection::outside_to_inside);
  if (asked == FireDirection::inside_to_outside && inside) return *inside;
  if (asked == FireDirection::outside_to_inside && outside) return *outside;
  ResistanceClass least = classes.front();
  for (const ResistanceClass& one : classes) least = shorter_of(least, one);
  if (inside && outside) least.direction = FireDirection::both;
  return least;
}

std::string class_text(std::string_view criteria, int minutes) {
  return std::string(criteria) + " " + std::to_string(minutes);
}

std::string class_text(const ResistanceClass& resistance, std::string_view criteria) {
  std::string text;
  int shorter_min = 0;
  for (const int period_min : kPeriods_min) {
    std::string letters;
    bool ends_here = false;
    for (const char letter : criteria) {
      const int minutes = resistance.minutes_for(std::string_view(&letter, 1));
      if (minutes > shorter_min) letters += letter;
      ends_here = ends_here || minutes == period_min;
    }
    if (!ends_here) continue;
    text += (text.empty() ? "" : " / ") + class_text(letters, period_min);
    shorter_min = period_min;
  }
  if (resistance.direction == FireDirection::inside_to_outside) text += " (i→o)";
  if (resistance.direction == FireDirection::outside_to_inside) text += " (o→i)";
  if (resistance.direction == FireDirection::both) text += " (i↔o)";
  return text;
}

std::string not_a_class(const Sourced<std::string>& text) {
  return "'" + text.value + "' is not a class of EN 13501-2 (" + describe(text.origin) + ")";
}

}  // namespace panel_dossier::fire
