#include "core/intake/rates_reader.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <set>
#include <utility>
#include <vector>

#include "core/intake/csv_line.h"
#include "core/intake/declaration_reader.h"
#include "core/intake/entity_type.h"
#include "core/intake/evidence_reader.h"
#include "core/intake/input_file.h"
#include "core/intake/reporter.h"

namespace panel_dossier {

namespace {

constexpr const char* kFileKey = "quantities.rates_file";
constexpr std::string_view kRatesPrefix = "quantities.rates.";
constexpr const char* kHeader = "material,unit,rate,currency,source";
constexpr std::array<std::string_view, 5> kUnits{"m3", "m2", "m", "kg", "piece"};

/// The form of a code of ISO 4217:2015; whether the currency exists is not looked up.
bool is_currency(std::string_view text) {
  return text.size() == 3 && std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

class RatesReader {
 public:
  RatesReader(Settings& settings, Reporter& report) : settings_(settings), report_(report) {}

  void read(std::string_view text) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) text.remove_prefix(kByteOrderMark.size());
    while (!text.empty() && !wrong_header_) {
      const std::size_t end = text.find('\n');
      ++line_;
      read_line(trimmed(text.substr(0, end)));
      text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    if (materials_.empty() && !report_.has_errors()) {
      report_.file_error(0, 0, "the file gives no rate", "add a row for each material, or leave the setting out");
    }
  }

 private:
  Settings& settings_;
  Reporter& report_;
  std::uint32_t line_ = 0;
  bool has_header_ = false;
  bool wrong_header_ = false;
  std::set<std::string> materials_;

  void error(std::string message, std::string advice) {
    report_.file_error(line_, 0, std::move(message), std::move(advice));
  }

  void read_line(std::string_view line) {
    if (line.empty() || line.front() == '#') return;
    const auto fields = csv_fields(line);
    if (!fields) {
      error("a quoted field is not closed", "close the quote on the same line");
    } else if (!has_header_) {
      has_header_ = true;
      wrong_header_ = *fields != std::vector<std::string>{"material", "unit", "rate", "currency", "source"};
      if (wrong_header_) error(std::string("the header is not ") + kHeader, "write this header first");
    } else if (fields->size() != 5) {
      error(std::to_string(fields->size()) + " fields instead of 5",
            std::string("write ") + kHeader + ", and quotes around a field with a comma");
    } else {
      read_row(*fields);
    }
  }

  void read_row(const std::vector<std::string>& fields) {
    const std::string& material = fields[0];
    const auto rate = declared_number(fields[2]);
    if (material.empty()) {
      error("the material is empty", "write its name as in the export");
    } else if (std::find(kUnits.begin(), kUnits.end(), fields[1]) == kUnits.end()) {
      error("'" + fields[1] + "' is no unit of a rate", "write m3, m2, m, kg or piece");
    } else if (!rate || *rate < 0.0) {
      error("'" + fields[2] + "' is not a number of at least 0", "write the rate with a decimal point");
    } else if (!is_currency(fields[3])) {
      error("'" + fields[3] + "' is not a currency", "write its three capital letters");
    } else if (fields[4].empty()) {
      error("the rate of '" + material + "' names no source", "say where the rate comes from");
    } else if (!materials_.insert(material).second) {
      error("material '" + material + "' has a rate already", "keep one of them");
    } else {
      store(fields, *rate);
    }
  }

  void store(const std::vector<std::string>& fields, double rate) {
    const std::string row = std::string(kRatesPrefix) + std::to_string(materials_.size() - 1) + ".";
    settings_.set(row + "material", fields[0]);
    settings_.set(row + "unit", fields[1]);
    settings_.set(row + "rate", rate);
    settings_.set(row + "currency", fields[3]);
    settings_.set(row + "source", fields[4]);
  }
};

bool has_rates(const Settings& settings) {
  const auto first = settings.all().lower_bound(kRatesPrefix);
  return first != settings.all().end() && first->first.starts_with(kRatesPrefix);
}

/// Why the file that the setting names is not read, and what to do; empty when it can be.
std::pair<std::string, std::string> refusal(const Settings& settings, const std::filesystem::path& settings_dir,
                                            const std::string& location) {
  if (has_rates(settings)) return {"'quantities.rates' is given too", "keep one of them"};
  if (!location.ends_with(".csv")) return {"'" + location + "' does not name a .csv file", "name a CSV file"};
  switch (find_evidence_file(settings_dir, location)) {
    case EvidenceStatus::present: return {};
    case EvidenceStatus::missing: return {"'" + location + "' is not there", "put the file beside the settings"};
    case EvidenceStatus::refused: break;
  }
  return {"'" + location + "' is not inside the folder of the settings; not followed",
          "copy the file there and give its relative path"};
}

}  // namespace

void read_rates(Settings& settings, std::string_view bytes, const std::string& display_name, Diagnostics& diagnostics) {
  Reporter report(display_name);
  report.set_lines(LineTable(bytes));
  if (check_encoding(bytes, report)) RatesReader(settings, report).read(bytes);
  Diagnostics found = report.take();
  std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
}

std::optional<RatesFile> read_rates_file(Settings& settings, const std::filesystem::path& settings_dir,
                                         const std::string& settings_name, Diagnostics& diagnostics) {
  if (!settings.all().contains(kFileKey)) return std::nullopt;
  const auto refuse = [&](std::string message, std::string advice) {
    diagnostics.push_back({Severity::error, settings_name, 0, 0, kFileKey, {}, std::move(message), std::move(advice)});
    return std::nullopt;
  };
  const auto location = settings.text(kFileKey);
  if (!location) return refuse("is not a text", "write the name of a CSV file beside the settings");
  auto [message, advice] = refusal(settings, settings_dir, location->value);
  if (!message.empty()) return refuse(std::move(message), std::move(advice));
  auto bytes = load_at_most(settings_dir / location->value, kLargestRatesFile_bytes);
  if (!bytes) return refuse("'" + location->value + "' cannot be read", "check its permissions");
  if (bytes->size() > kLargestRatesFile_bytes) {
    return refuse("'" + location->value + "' is larger than 4 MiB", "keep the materials of this project only");
  }
  read_rates(settings, *bytes, (settings_dir / location->value).string(), diagnostics);
  return RatesFile{location->value, std::move(*bytes)};
}

}  // namespace panel_dossier
