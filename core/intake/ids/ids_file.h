// A file of requirements in the form IDS 1.0 (buildingSMART, Information Delivery Specification): what it asks of which
// entities of an export.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/ids/ids_pattern.h"

namespace panel_dossier {

/// What a name or a value must be: one text, or a restriction of which every kind that is given must hold.
struct IdsValue {
  bool is_simple = true;
  std::string text;  ///< of a simple value
  std::string base;  ///< of a restriction: `xs:string`, `xs:double`, …
  std::vector<std::string> enumeration;
  std::vector<IdsPattern> patterns;
  std::optional<double> min_inclusive;
  std::optional<double> max_inclusive;
  std::optional<double> min_exclusive;
  std::optional<double> max_exclusive;
  std::optional<std::size_t> length;
  std::optional<std::size_t> min_length;
  std::optional<std::size_t> max_length;

  bool has_bounds() const { return min_inclusive || max_inclusive || min_exclusive || max_exclusive; }
};

/// `'C24'`, `one of 'A', 'B'`, `like '[A-Z]+'`, `at least 0.1 and below 2`: for messages.
std::string to_words(const IdsValue& value);

enum class IdsFacetKind { entity, attribute, classification, property, material, part_of };

enum class IdsCardinality { required, optional, prohibited };

/// One condition. Of its members those count that belong to its kind; what is absent is not asked for.
struct IdsFacet {
  IdsFacetKind kind = IdsFacetKind::entity;
  IdsCardinality cardinality = IdsCardinality::required;  ///< as a requirement
  std::optional<IdsValue> name;             ///< entity, attribute, whole of part_of: class; property: baseName
  std::optional<IdsValue> predefined_type;  ///< entity, part_of
  std::optional<IdsValue> value;            ///< attribute, classification, property, material
  std::optional<IdsValue> set;              ///< property: propertySet; classification: system
  std::string data_type;                    ///< property: `IFCLABEL`; empty for any
  std::string relation;                     ///< part_of: `IFCRELAGGREGATES`, …; empty for any
  std::string instructions;
  std::uint32_t line = 0;  ///< of the file
};

/// The requirement in words: `property Pset_WallCommon.IsExternal (IFCBOOLEAN) 'true'`.
std::string to_words(const IdsFacet& facet);

/// How many entities an applicability must have.
enum class IdsOccurrence {
  required,    ///< at least one, and each meets the requirements
  optional,    ///< each meets the requirements, if there is any
  prohibited,  ///< none
};

struct IdsSpecification {
  std::string name;
  std::string identifier;
  std::string description;
  std::string instructions;
  std::vector<std::string> ifc_versions;  ///< `IFC2X3`, `IFC4`, `IFC4X3_ADD2`
  IdsOccurrence occurrence = IdsOccurrence::required;
  std::vector<IdsFacet> applicability;  ///< all must hold
  std::vector<IdsFacet> requirements;   ///< likewise
  std::uint32_t line = 0;
};

struct IdsFile {
  std::string title;
  std::vector<IdsSpecification> specifications;
};

/// Reads a file of requirements. Reports as errors, with the line, what is no IDS 1.0: bad XML, a document type
/// declaration, elements or attributes that the form does not have or in another order, values that are none of the
/// listed, a pattern that is no regular expression of XML Schema or too large to be tried, more specifications, facets
/// or values than the limits of this reader. None when there is any error.
std::optional<IdsFile> read_ids(std::string text, const std::filesystem::path& schema_dir, Reporter& report);

}  // namespace panel_dossier
