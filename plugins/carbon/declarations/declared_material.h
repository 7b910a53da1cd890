// Materials with the documents that declare them, and what those say where they are files of a form that is read.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/plugin.h"
#include "plugins/carbon/declarations/declaration_reader.h"

namespace panel_dossier::carbon {

inline constexpr std::string_view kDeclarationSet = "Panel_EnvironmentalDeclaration";

/// Content of one document of the project's evidence. Neither member is filled for a document that no material names as
/// its declaration, that is not there, or whose form is not read.
struct DeclarationFile {
  std::optional<Declaration> content;
  std::string fault;  ///< why the file could not be read, with its line; else empty
};

/// One entry for each of `Project::evidence`. Reads below `Project::folder` what a material names by
/// Panel_EnvironmentalDeclaration.DocumentId and the intake has found there. What is wrong with a file goes to
/// `problems`.
std::vector<DeclarationFile> read_declaration_files(const Project& project, std::vector<InputProblem>& problems);

struct DeclaredMaterial {
  const Material* material = nullptr;  ///< never null
  const Evidence* document = nullptr;  ///< null when it names none, or none of that id is in the project
  const Declaration* file = nullptr;   ///< what the document states; null when it is no file that is read
  std::string_view file_fault = {};    ///< why it could not be read

  const std::string& name() const { return material->name; }
};

/// One entry for each of `Project::materials`; both arguments outlive the result. `files` as from
/// `read_declaration_files`.
std::vector<DeclaredMaterial> declared_materials(const Project& project, const std::vector<DeclarationFile>& files);

}  // namespace panel_dossier::carbon
