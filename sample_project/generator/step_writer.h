// Streams the same export as a STEP file (ISO 10303-21), an instance a line; relationships that much of the project
// shares wait for its end, as they name everything they hold.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "core/intake/step/step_schema.h"
#include "sample_project/generator/export_writer.h"

namespace sample_export {

class StepWriter final : public ExportWriter {
 public:
  /// Throws std::runtime_error when the file cannot be created.
  StepWriter(const std::filesystem::path& file, const panel_dossier::StepSchema& schema);

  void finish() override;

 private:
  using Number = std::uint64_t;

  enum class Role {
    document,     ///< the root element
    header,       ///< the header of the document
    header_text,  ///< a field of it
    entity,
    attribute,  ///< an element around the values of an attribute
    value,      ///< a value with its type
    inverse,    ///< an element around the relationships of an entity
    pointer,    ///< only points to what is written elsewhere
  };

  /// An element that is open.
  struct Open {
    Role role = Role::document;
    std::string name;
    const panel_dossier::StepEntity* entity = nullptr;  ///< of an entity, or declared of an attribute
    Number number = 0;                                  ///< of an entity, or of the owner of an inverse
    std::size_t position = 0;                           ///< among the arguments of what is around it
    bool is_argument = false;                           ///< an entity that is itself the attribute of what is around it
    std::string id;
    std::vector<std::vector<std::string>> arguments;  ///< of an entity: the values of each
    std::vector<std::string> items;                   ///< of an attribute
    std::string end;                                  ///< of an inverse: the attribute that names the owner
  };

  const panel_dossier::StepSchema& schema_;
  std::ofstream stream_;
  std::vector<Open> open_;
  std::map<std::string, std::string> header_;
  std::map<std::string, Number> numbers_;      ///< by id
  std::vector<Open> waiting_;                  ///< shared relationships
  std::map<std::string, std::size_t> shared_;  ///< their places, by id
  Number last_ = 0;

  void open(const std::string& name, const Attributes& attributes) override;
  void text(const std::string& text) override;
  void close() override;

  void open_in_entity(const std::string& name, const Attributes& attributes);
  void open_in_attribute(const std::string& name, const Attributes& attributes);
  void open_in_inverse(const std::string& name, const Attributes& attributes);
  Open& push(Role role, const std::string& name);
  Open& push_entity(const std::string& type, const Attributes& attributes);
  void set_attributes(Open& entity, const Attributes& attributes);
  void become_entity(Open& attribute);
  void deliver(const std::string& item);
  void write_header();
  void write_instance(const Open& entity);
  Number number_of(const std::string& id);
  const panel_dossier::StepEntity& entity_named(const std::string& name) const;
  std::string value_text(const panel_dossier::StepType& type, const std::string& text) const;
};

/// A text as a STEP string, with everything beyond ASCII as `\X2\…\X0\`.
std::string step_string(const std::string& utf8);

}  // namespace sample_export
