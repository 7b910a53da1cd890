// Environmental declarations among the evidence files: the ILCD+EPD form in XML, and a plain CSV.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/model/origin.h"
#include "plugins/carbon/declarations/declaration.h"

namespace panel_dossier::carbon {

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
