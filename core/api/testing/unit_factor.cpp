#include "core/api/testing/unit_factor.h"

#include <cstddef>
#include <map>
#include <numbers>
#include <string_view>

#include "core/api/support/units.h"

namespace panel_dossier::testing {

namespace {

/// The words of which printed units are made; `m2` and `m3` are those of environmental declarations.
double word_factor(std::string_view word) {
  static const std::map<std::string_view, double> factors{{"mm", 1.0e-3},
                                                          {"km", 1.0e3},
                                                          {"g", 1.0e-3},
                                                          {"t", 1.0e3},
                                                          {"kN", 1.0e3},
                                                          {"kNm", 1.0e3},
                                                          {"Nmm", 1.0e-3},
                                                          {"kPa", 1.0e3},
                                                          {"MPa", 1.0e6},
                                                          {"kJ", 1.0e3},
                                                          {"kW", 1.0e3},
                                                          {"min", 60.0},
                                                          {"h", units::kSecondPerHour},
                                                          {"d", units::kSecondPerDay},
                                                          {"days", units::kSecondPerDay},
                                                          {"%", 1.0 / units::kPercentPerWhole},
                                                          {"°", std::numbers::pi / 180.0}};
  const auto found = factors.find(word);
  return found == factors.end() ? 1.0 : found->second;
}

/// Reads products and quotients of words, such as `W/(m²·K)`, from left to right.
class UnitReader {
 public:
  explicit UnitReader(std::string_view text) : text_(text) {}

  double product() {
    double result = factor();
    while (true) {
      if (take("·")) {
        result *= factor();
      } else if (take("/")) {
        result /= factor();
      } else {
        return result;
      }
    }
  }

  bool at_end() const { return at_ == text_.size(); }

 private:
  std::string_view text_;
  std::size_t at_ = 0;

  bool take(std::string_view sign) {
    if (!text_.substr(at_).starts_with(sign)) return false;
    at_ += sign.size();
    return true;
  }

  double factor() {
    if (take("(")) {
      const double inside = product();
      take(")");
      return inside;
    }
    const std::size_t start = at_;
    while (!at_end() && !stops()) ++at_;
    const double word = word_factor(text_.substr(start, at_ - start));
    if (take("²")) return word * word;
    if (take("³")) return word * word * word;
    if (take("⁴")) return word * word * word * word;
    return word;
  }

  bool stops() const {
    for (const std::string_view sign : {"/", "(", ")", "·", "²", "³", "⁴"}) {
      if (text_.substr(at_).starts_with(sign)) return true;
    }
    return false;
  }
};

}  // namespace

double unit_factor(std::string_view unit) {
  constexpr std::string_view kPer = "per ";
  if (unit.starts_with(kPer)) return 1.0 / unit_factor(unit.substr(kPer.size()));
  UnitReader reader(unit);
  const double factor = reader.product();
  return reader.at_end() ? factor : 1.0;
}

}  // namespace panel_dossier::testing
