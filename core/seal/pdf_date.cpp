#include "core/seal/pdf_date.h"

#include <array>
#include <iomanip>
#include <locale>
#include <sstream>
#include <stdexcept>

namespace panel_dossier {

namespace {

constexpr const char* kIsoForm = "%Y-%m-%dT%H:%M:%SZ";

}  // namespace

std::string iso_from_seconds(std::time_t seconds) {
  std::tm parts{};
  gmtime_r(&seconds, &parts);
  std::array<char, 32> buffer{};
  return {buffer.data(), std::strftime(buffer.data(), buffer.size(), kIsoForm, &parts)};
}

std::time_t seconds_from_iso(const std::string& time_utc) {
  std::tm parts{};
  std::istringstream stream(time_utc);
  stream.imbue(std::locale::classic());
  stream >> std::get_time(&parts, kIsoForm);
  const std::time_t seconds = timegm(&parts);
  // Writing the time back catches what parsing lets through: missing zeros, 30 February, text behind the end.
  if (stream.fail() || iso_from_seconds(seconds) != time_utc) {
    throw std::runtime_error("the time '" + time_utc + "' is not of the form 2026-11-25T02:00:00Z");
  }
  return seconds;
}

std::string pdf_date(const std::string& time_utc) {
  seconds_from_iso(time_utc);
  std::string date = "D:";
  for (const char character : time_utc) {
    if (character != '-' && character != ':' && character != 'T') date += character;
  }
  return date;
}

std::string iso_from_pdf_date(std::string_view date) {
  constexpr std::size_t kLength = 17;
  if (date.size() != kLength || date.substr(0, 2) != "D:") {
    throw std::runtime_error("the date '" + std::string(date) + "' is not of the form D:20261125020000Z");
  }
  const auto digits = [date](std::size_t from, std::size_t count) { return std::string(date.substr(from, count)); };
  std::string time_utc = digits(2, 4) + "-" + digits(6, 2) + "-" + digits(8, 2) + "T" + digits(10, 2) + ":" +
                         digits(12, 2) + ":" + digits(14, 2) + digits(16, 1);
  seconds_from_iso(time_utc);
  return time_utc;
}

}  // namespace panel_dossier
