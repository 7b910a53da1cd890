// The standard's schemas as tables: entities, the order of their attributes, and how a value of each is written in
// STEP.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

/// How a single value is written (ISO 10303-21, clause 6.4).
enum class StepKind : std::uint8_t {
  entity,       ///< `#12`
  text,         ///< `'…'`
  real,         ///< digits with a point
  integer,      ///< digits
  number,       ///< either of the two
  boolean,      ///< `.T.` `.F.`
  logical,      ///< `.T.` `.F.` `.U.`
  enumeration,  ///< `.NAME.`
  binary,       ///< `"…"`
  select,       ///< `#12`, `.NAME.` or `IFCTYPE(value)`
};

struct StepType {
  StepKind kind = StepKind::select;
  std::uint8_t levels = 0;  ///< of lists around the value
  std::uint16_t index = 0;  ///< the entity or enumeration meant; else 0
};

enum class StepPresence : std::uint8_t { required, optional, derived };

struct StepAttribute {
  std::string_view name;
  StepType type;
  StepPresence presence = StepPresence::optional;
};

inline constexpr std::uint16_t kNoStepEntity = 0xFFFF;

struct StepEntity {
  std::string_view name;                    ///< as the standard writes it: `IfcWall`
  std::uint16_t supertype = kNoStepEntity;  ///< index of an entity
  std::uint16_t argument_count = 0;
  bool is_abstract = false;
  bool is_read = false;                       ///< the reader makes something of it
  bool is_listed = false;                     ///< the reader starts from it
  bool is_rooted = false;                     ///< its first attribute is GlobalId
  std::span<const StepAttribute> attributes;  ///< in order; empty where only their number is known
};

/// One schema. Immutable, so that threads may share it.
class StepSchema {
 public:
  /// Reads the rows of one generation from the folder `ifc` of `schema_dir`. Throws std::runtime_error, naming the
  /// file, when one cannot be read or is not what README.md there says.
  StepSchema(const std::filesystem::path& schema_dir, Generation generation);
  StepSchema(const StepSchema&) = delete;
  StepSchema& operator=(const StepSchema&) = delete;

  const StepEntity& entity(std::uint16_t index) const { return entities_[index]; }
  std::size_t entity_count() const { return entities_.size(); }
  /// By name in upper case; kNoStepEntity when the schema has no such entity.
  std::uint16_t find_entity(std::string_view upper_case) const;
  /// True for the entity itself and everything it inherits from.
  bool is_a(std::uint16_t entity, std::uint16_t supertype) const;

  /// A defined type or enumeration by name in upper case: null when the schema has none.
  struct DefinedType {
    std::string_view name;  ///< `IfcLengthMeasure`
    StepType type;
  };
  const DefinedType* find_type(std::string_view upper_case) const;

  std::string_view enumeration_name(std::uint16_t index) const { return enumerations_[index].name; }
  bool has_value(std::uint16_t enumeration, std::string_view upper_case) const;

  Generation generation() const { return generation_; }

 private:
  struct Enumeration {
    std::string_view name;
    std::unordered_set<std::string_view> values;
  };

  Generation generation_;
  std::vector<std::string> files_;             ///< what the views point into
  std::vector<std::string> upper_case_names_;  ///< keys of the two maps
  std::vector<StepEntity> entities_;
  std::vector<StepAttribute> attributes_;
  std::vector<Enumeration> enumerations_;
  std::vector<DefinedType> types_;
  std::unordered_map<std::string_view, std::uint16_t> entity_by_name_;
  std::unordered_map<std::string_view, std::uint16_t> type_by_name_;

  class Loader;
};

/// The schema of a generation, read once in the life of the program for each folder.
const StepSchema& step_schema(const std::filesystem::path& schema_dir, Generation generation);

/// The generation that the name in FILE_SCHEMA stands for, without regard to case: IFC2X3, IFC4 or IFC4X3 with or
/// without a published addendum. Drafts (IFC4X1, IFC4X3_RC4) and all others are unknown.
Generation generation_of_schema_name(std::string_view name);

}  // namespace panel_dossier
