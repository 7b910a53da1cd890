// Where a value came from: the smallest unit of traceability.
#pragma once

#include <cstdint>
#include <string>

#include "core/api/support/shared_text.h"

namespace panel_dossier {

enum class OriginKind {
  export_file,  ///< an entity of the ifcXML export
  data_table,   ///< a row of a plugin's data table
  input_table,  ///< a row of a table that the project or its library keeps
  setting,      ///< a key of the project settings; listed as an assumption in the dossier
};

/// The place a value was read from. Only the members that belong to `kind` are filled.
struct Origin {
  Origin();
  Origin(const Origin&);
  Origin(Origin&&) noexcept;
  Origin& operator=(const Origin&);
  Origin& operator=(Origin&&) noexcept;
  ~Origin();

  OriginKind kind = OriginKind::export_file;

  // export_file
  SharedText entity;       ///< IFC entity name, for example `IfcWall`
  SharedText global_id;    ///< GlobalId of the entity or, where it has none, of its nearest owner; may be empty
  std::uint32_t line = 0;  ///< line of the export, from 1; 0 when unknown
  SharedText property;     ///< `Pset.Property` or attribute name

  // data_table
  SharedText table;   ///< file name of the table
  SharedText row;     ///< key of the row
  SharedText source;  ///< published source of the row: standard, year, clause or table

  // input_table: `table` is the file, with its sheet where it has several, `row` the row's number, `property` the
  // column it was read from or the property it stands for, `source` what the row names as its source, with its day

  // setting
  SharedText key;  ///< dotted key in the project settings
};

/// A value together with its origin.
template <typename T>
struct Sourced {
  T value{};
  Origin origin;
};

/// One line for people: `IfcMaterial 'softwood' line 120`, `limits.csv row 'x' (source)` or `setting 'a.b'`.
std::string describe(const Origin& origin);

}  // namespace panel_dossier
