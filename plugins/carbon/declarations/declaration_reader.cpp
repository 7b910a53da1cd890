#include "plugins/carbon/declarations/declaration_reader.h"

#include <map>
#include <set>
#include <utility>

#include "core/api/support/line_table.h"
#include "core/api/support/project_file.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "plugins/carbon/declarations/ilcd.h"

namespace panel_dossier::carbon {

namespace fs = std::filesystem;

namespace {

std::string extension_of(const std::string& location) {
  return lower_case(fs::path(location).extension().string());
}

}  // namespace

Origin declaration_origin(const std::string& location, const std::string& document, std::uint32_t line) {
  Origin origin;
  origin.kind = OriginKind::data_table;
  origin.table = location;
  origin.row = "line " + std::to_string(line);
  origin.source = "environmental declaration " + document;
  return origin;
}

bool is_readable_declaration(const std::string& location) {
  const std::string extension = extension_of(location);
  return extension == ".xml" || extension == ".csv";
}

DeclarationResult read_declaration(const fs::path& project_dir, const std::string& location,
                                   const std::string& document) {
  auto text = load_at_most(project_dir / location, kLargestDeclaration_bytes);
  if (!text) return {std::nullopt, {0, "the file cannot be read", "check its permissions"}, {}};
  if (text->size() > kLargestDeclaration_bytes) {
    return {std::nullopt, {0, "the file is larger than 4 MiB", "give the declaration of one product only"}, {}};
  }
  if (const auto fault = encoding_fault(*text)) {
    const std::uint32_t line = fault->offset ? LineTable(*text).at(*fault->offset).line : 0;
    return {std::nullopt, {line, fault->message, "ask the supplier for it again, in UTF-8"}, {}};
  }
  if (extension_of(location) == ".csv") return read_declaration_csv(*text, location, document);
  DeclarationResult result = read_declaration_xml(std::move(*text), location, document);
  if (result.declaration && !result.declaration->unit) {
    result.declaration->unit = ilcd::read_flow_unit_beside(project_dir, location, result.flow_uri, document);
  }
  return result;
}

std::string declared_module(std::string_view text) {
  constexpr std::string_view kEnDash = "–";
  std::string module(trimmed(text));
  for (auto at = module.find(kEnDash); at != std::string::npos; at = module.find(kEnDash)) {
    module.replace(at, kEnDash.size(), "-");
  }
  for (char& c : module) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return module;
}

namespace {

/// One line: field, module, value, unit.
struct Row {
  std::string field;
  std::string module;
  std::string value;
  std::string unit;
};

/// The plain CSV form of a declaration: see schemas/declarations.md.
class CsvReader {
 public:
  CsvReader(const std::string& location, const std::string& document) : location_(location), document_(document) {}

  DeclarationResult read(std::string_view text) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) text.remove_prefix(kByteOrderMark.size());
    while (!text.empty()) {
      const std::size_t end = text.find('\n');
      ++line_;
      if (auto fault = read_line(trimmed(text.substr(0, end)))) return {std::nullopt, *fault, {}};
      text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    if (declaration_.values.empty()) {
      return {
          std::nullopt, {0, "the file declares no indicator", "give lines such as GWP-fossil,A1-A3,1.2,kg CO2e"}, {}};
    }
    return {std::move(declaration_), {}, {}};
  }

 private:
  const std::string& location_;
  const std::string& document_;
  Declaration declaration_;
  std::uint32_t line_ = 0;
  bool has_header_ = false;
  std::set<std::pair<std::string, std::string>> stated_;  ///< field and module

  using Fault = std::optional<DeclarationFault>;

  Fault fault(std::string message, std::string advice) const {
    return DeclarationFault{line_, std::move(message), std::move(advice)};
  }

  Origin origin() const { return declaration_origin(location_, document_, line_); }

  Fault read_line(std::string_view line) {
    if (line.empty() || line.front() == '#') return std::nullopt;
    const auto fields = csv_fields(line);
    if (!fields) return fault("a quoted field is not closed", "close the quote on the same line");
    if (!has_header_) {
      has_header_ = true;
      if (*fields == std::vector<std::string>{"field", "module", "value", "unit"}) return std::nullopt;
      return fault("the header is not field,module,value,unit", "write this header first");
    }
    if (fields->size() != 4) {
      return fault(std::to_string(fields->size()) + " fields instead of 4", "write field,module,value,unit");
    }
    const Row row{(*fields)[0], (*fields)[1], (*fields)[2], (*fields)[3]};
    if (!stated_.emplace(row.field, row.module).second) {
      return fault("'" + row.field.substr(0, 60) + "'" + (row.module.empty() ? "" : " of " + row.module) +
                       " is stated a second time",
                   "keep one of the lines");
    }
    return row.module.empty() ? read_fact(row) : read_value(row);
  }

  Fault read_value(const Row& row) {
    const auto number = parse_decimal(row.value);
    if (!number) return fault("'" + row.value + "' is not a number", "write it with a decimal point");
    declaration_.values.push_back({row.field, declared_module(row.module), {}, row.unit, {*number, origin()}});
    return std::nullopt;
  }

  Fault read_fact(const Row& row) {
    // By which a library finds the file; what it is called here the project says.
    if (row.field == "identification") return std::nullopt;
    const std::map<std::string, std::optional<Sourced<std::string>>*> texts{
        {"product", &declaration_.product},
        {"valid_until", &declaration_.valid_until},
        {"geography", &declaration_.geography},
        {"kind", &declaration_.kind},
        {"data_quality", &declaration_.data_quality}};
    if (const auto text = texts.find(row.field); text != texts.end()) {
      *text->second = Sourced<std::string>{row.value, origin()};
      return std::nullopt;
    }
    return read_measure(row);
  }

  Fault read_measure(const Row& row) {
    struct Measure {
      std::optional<Sourced<double>>* target;
      std::map<std::string, double> factors;  ///< unit -> factor to the program's unit; empty: any
    };
    const std::map<std::string, Measure> measures{
        {"declared_unit", {&declaration_.amount, {}}},
        {"density", {&declaration_.density_kg_per_m3, {{"kg/m3", 1.0}, {"kg/m³", 1.0}}}},
        {"thickness", {&declaration_.thickness_m, {{"m", 1.0}, {"mm", 1e-3}}}},
        {"reference_service_life", {&declaration_.reference_service_life, {{"years", 1.0}, {"a", 1.0}}}}};
    const auto found = measures.find(row.field);
    if (found == measures.end()) {
      return fault("no field '" + row.field.substr(0, 60) + "' without a module is known",
                   "see schemas/declarations.md for the fields");
    }
    const auto number = parse_decimal(row.value);
    if (!number || *number <= 0.0) return fault("'" + row.value + "' is not a number above 0", "correct the value");
    double factor = 1.0;
    if (!found->second.factors.empty()) {
      const auto unit = found->second.factors.find(row.unit);
      if (unit == found->second.factors.end()) {
        return fault("'" + row.unit + "' is no unit of " + row.field, "see schemas/declarations.md for the units");
      }
      factor = unit->second;
    }
    *found->second.target = Sourced<double>{*number * factor, origin()};
    if (row.field == "declared_unit") declaration_.unit = Sourced<std::string>{row.unit, origin()};
    return std::nullopt;
  }
};

}  // namespace

DeclarationResult read_declaration_csv(std::string_view text, const std::string& location,
                                       const std::string& document) {
  return CsvReader(location, document).read(text);
}

}  // namespace panel_dossier::carbon
