#include "plugins/fire/evidence/report_record.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier::fire {

namespace {

/// The year behind `standard` (`EN 1364-1:2015`), where it stands at `at`; empty when there is none.
std::string edition_at(std::string_view text, std::size_t at, std::string_view standard) {
  constexpr std::size_t kDigits = 4;
  const std::string_view rest = text.substr(at + standard.size());
  if (!rest.starts_with(':') || rest.size() < 1 + kDigits) return {};
  const std::string_view year = rest.substr(1, kDigits);
  const bool digits =
      std::all_of(year.begin(), year.end(), [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; });
  return digits && (year.starts_with("19") || year.starts_with("20")) ? std::string(year) : std::string();
}

}  // namespace

bool names_country(std::string_view countries, std::string_view jurisdiction) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kParts{{
      {"great britain", "england"},
      {"great britain", "scotland"},
      {"great britain", "wales"},
      {"united kingdom", "england"},
      {"united kingdom", "northern ireland"},
      {"united kingdom", "scotland"},
      {"united kingdom", "wales"},
  }};
  const std::string asked = lower_case(trimmed(jurisdiction));
  const std::vector<std::string> stated = split(countries, ',');
  return std::any_of(stated.begin(), stated.end(), [&](const std::string& country) {
    const std::string named = lower_case(country);
    return named == asked || std::find(kParts.begin(), kParts.end(),
                                       std::pair<std::string_view, std::string_view>(named, asked)) != kParts.end();
  });
}

std::string standard_fault(const Evidence& document, const std::vector<std::string_view>& accepted,
                           std::string_view what_it_gives) {
  const std::string_view text = document.standard;
  const std::string is_to = "is to '" + document.standard + "'";
  bool known = false;
  std::string latest;
  for (const std::string_view standard : accepted) {
    for (std::size_t at = text.find(standard); at != std::string_view::npos; at = text.find(standard, at + 1)) {
      known = true;
      latest = std::max(latest, edition_at(text, at, standard));
    }
  }
  if (!known) return is_to + ", which gives no class of " + std::string(what_it_gives);
  if (latest.empty()) return is_to + " without its edition (as in EN 13501-2:2016)";
  if (!document.issued.empty() && latest > document.issued.substr(0, latest.size())) {
    return is_to + ", an edition later than its day of issue, " + document.issued;
  }
  return {};
}

}  // namespace panel_dossier::fire
