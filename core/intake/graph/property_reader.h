// Property sets and quantities of objects, their types and materials, and the measure type that each known property
// must have: schemas/model_properties.csv and the lists of the plugins.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/api/model/properties.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/graph.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// The property set in which a build writes its results back into the export. What it holds is no claim of anybody's,
/// so the intake does not read it.
inline constexpr std::string_view kResultsSet = "Panel_Results";

/// How the description begins of a property, a quantity or a set of the standard that a build has written into the
/// export. Read as a claim of the export, such a result would prove itself; the intake does not read it.
inline constexpr std::string_view kWrittenBackMark = "result of panel-dossier: ";

/// True for a set, property or quantity that bears the mark.
bool is_written_back(const Graph& graph, const Element& entity);

/// A quantity that holds one number.
struct QuantityForm {
  std::string_view entity;
  std::string_view attribute;  ///< that holds the number
  std::string_view measure;    ///< its IFC defined type
};

/// Null for an entity that is no such quantity.
const QuantityForm* find_quantity(std::string_view entity);

/// A number whose type says another unit than the list, or none at all, must not be taken for the SI value that the
/// checks expect.
class ExpectedMeasures {
 public:
  /// Reports as an error, with its file and line, what is wrong with a list: see `read_property_lists`, and a type that
  /// is no measure.
  ExpectedMeasures(const std::vector<PropertyListText>& lists, Reporter& report);

  /// The type that the list gives for the property, with its unit, when `found` cannot stand for it; none when it can
  /// or when the list does not know the property.
  /// `full_name` is `Pset.Property`.
  std::optional<std::string> breach(const std::string& full_name, const Measure& found) const;

 private:
  struct Expected {
    const Measure* measure;
    std::string unit;  ///< of a plain number, else empty
  };

  std::unordered_map<std::string, Expected> rows_;  ///< by full name
};

/// Keeps what it has read of sets that several objects share and hands out copies. Belongs to one run on one thread.
class PropertyReader {
 public:
  /// A known property of another measure type than `expected` says is reported and not read.
  PropertyReader(const ReadContext& context, UnitTable& units, const ExpectedMeasures& expected)
      : context_(context), units_(units), expected_(expected) {}

  /// Of an object: its own sets first, then those of its type.
  Properties of_object(const Element& object);
  /// Of a material, layer or other material definition: IfcMaterialProperties, and their IFC2x3 forms under the names
  /// the later generations gave them.
  Properties of_material(const Element& material);

 private:
  struct Named {
    std::string set;
    std::string name;
    Property property;
  };

  const ReadContext& context_;
  UnitTable& units_;
  const ExpectedMeasures& expected_;
  /// Sets that were asked for: without values after the first time, for most belong to one object only.
  std::unordered_map<const void*, std::optional<std::vector<Named>>> sets_;

  void add_set(const Element& set, Properties& properties);
  /// NominalLength of an IfcMechanicalFastener, its own or that of its type, as `IfcMechanicalFastener.NominalLength`.
  void add_fastener_length(const Element& object, Properties& properties);
  std::vector<Named> read_set(const Element& set);
  std::vector<Named> read_attributes(const Element& set);
  void read_property(const std::string& set, const Element& entity, std::vector<Named>& found);
  void read_quantity(const std::string& set, const Element& entity, std::vector<Named>& found);
  /// In SI; a duration in s. None, and a report, for what is no number.
  std::optional<double> number_in_si(const std::string& full_name, const TypedText& value, const Measure& measure,
                                     const Element& unit, const Element& entity);
  void append(const std::string& set, const std::string& name, const TypedText& value, const Element& unit,
              const Element& entity, std::vector<Named>& found);
};

}  // namespace panel_dossier
