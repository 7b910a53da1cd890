// An environmental product declaration as its own file states it, and its readers among the evidence files: the
// ILCD+EPD form in XML, and a plain CSV.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/origin.h"

namespace panel_dossier::carbon {

/// One declared figure, per `Declaration::amount` of the declared unit.
struct DeclaredValue {
  std::string indicator;  ///< abbreviation of EN 15804:2012+A2:2019, for example `GWP-fossil`
  std::string module;     ///< `A1-A3`, `A4`, `C3`, `D`, …
  std::string scenario;   ///< name of the scenario; empty when there is one only
  std::string unit;       ///< as written, for example `kg CO2 eq.`
  Sourced<double> value;
};

/// A scenario as a data set lists it. Those of one group stand for the same module, of which the default counts where
/// nobody names another.
struct DeclaredScenario {
  std::string name;
  std::string group;  ///< may be empty
  bool is_default = false;
};

/// What one file declares of one product. Each origin names the file as its table and the line as its row. Absent facts
/// are none; nothing is converted but numbers.
struct Declaration {
  std::optional<Sourced<std::string>> product;
  std::optional<Sourced<double>> amount;     ///< of the unit, for example 1 or 1000
  std::optional<Sourced<std::string>> unit;  ///< as written: `kg`, `m3`, `m2`, `piece`, …
  std::optional<Sourced<double>> density_kg_per_m3;
  std::optional<Sourced<double>> thickness_m;             ///< behind a declared unit of m2
  std::optional<Sourced<std::string>> valid_until;        ///< YYYY-MM-DD, or YYYY where the file gives the year only
  std::optional<Sourced<std::string>> geography;          ///< code of the country or region
  std::optional<Sourced<std::string>> kind;               ///< as written: `specific dataset`, `generic`, …
  std::optional<Sourced<std::string>> data_quality;       ///< as written
  std::optional<Sourced<double>> reference_service_life;  ///< in years
  std::vector<DeclaredScenario> scenarios;                ///< as the file lists them; may be empty
  std::vector<DeclaredValue> values;                      ///< in the order of the file
};

/// A declaration is a few hundred figures; anything larger is another thing.
inline constexpr std::size_t kLargestDeclaration_bytes = 4U << 20U;

/// What is wrong with a file and what to do about it.
struct DeclarationFault {
  std::uint32_t line = 0;  ///< from 1; 0 when the whole file is meant
  std::string message;
  std::string advice;
};

/// The declaration, or the first fault; never both.
struct DeclarationResult {
  std::optional<Declaration> declaration;
  DeclarationFault fault;
  std::string flow_uri;  ///< the ILCD flow data set of the product, relative to the file; empty without one
};

/// Where a fact stands: `location` and `document` name the file, `line` the place in it.
Origin declaration_origin(const std::string& location, const std::string& document, std::uint32_t line);

/// `.xml` or `.csv`, in either case: a form that is read. Others, such as a PDF, are evidence for people.
bool is_readable_declaration(const std::string& location);

/// Reads the file at `location`, a path as the export gives it, which the caller has found to lie inside `project_dir`.
/// `document` is the id of the evidence. A unit that a process data set leaves to its flow data set is read there,
/// where that lies in the folder too. Never throws for bad input.
DeclarationResult read_declaration(const std::filesystem::path& project_dir, const std::string& location,
                                   const std::string& document);

/// The same for the bytes of each form.
DeclarationResult read_declaration_xml(std::string text, const std::string& location, const std::string& document);
DeclarationResult read_declaration_csv(std::string_view text, const std::string& location, const std::string& document);

/// `A1–A3` and `a1-a3` -> `A1-A3`.
std::string declared_module(std::string_view text);

}  // namespace panel_dossier::carbon
