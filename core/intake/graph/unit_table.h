// The defined types of values, and the export's units: factors that bring its numbers to SI.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "core/intake/read_context.h"

namespace panel_dossier {

enum class MeasureKind {
  quantity,
  pure_number,
  logical,
  text,
  duration,  ///< seconds, written as a text of its own: see duration.h
};

struct Measure {
  std::string_view type;  ///< IFC defined type
  MeasureKind kind;
  std::string_view unit_type;  ///< enumerator of IfcUnitEnum or IfcDerivedUnitEnum; empty for a pure number
  std::string_view symbol;     ///< SI symbol
};

/// The measure of an IFC defined type or quantity attribute (`LengthValue`); null when it is none that is read.
const Measure* find_measure(std::string_view type);

/// value in SI = value * factor + offset
struct UnitScale {
  double factor = 1.0;
  double offset = 0.0;  ///< for a temperature in degrees Celsius
};

/// Belongs to one run on one thread: it remembers what it has worked out.
class UnitTable {
 public:
  /// Reads the IfcUnitAssignment of the project. Reports unknown units and a missing length unit.
  UnitTable(const ReadContext& context, const Element& project);
  /// The same for another thread, with what `read` has worked out.
  UnitTable(const ReadContext& context, const UnitTable& read)
      : context_(context),
        length_factor_(read.length_factor_),
        assigned_(read.assigned_),
        known_(read.known_),
        warned_(read.warned_) {}

  /// Metres per unit of length, for geometry.
  double length_factor() const { return length_factor_; }
  /// False when the unit of length is unknown, which is reported; sizes then mean nothing.
  bool has_length() const { return assigned_.count("LENGTHUNIT") != 0; }

  /// A number of this measure in SI. `own_unit` is the unit stated beside the value, or empty. None when that unit
  /// is unknown, which is reported.
  std::optional<double> to_si(double value, const Measure& measure, const Element& own_unit);

 private:
  struct Known {
    std::string unit_type;
    std::optional<UnitScale> scale;  ///< none: unknown, and reported once
  };

  ReadContext context_;
  double length_factor_ = 1.0;
  std::map<std::string, UnitScale, std::less<>> assigned_;
  std::unordered_map<const void*, Known> known_;
  std::map<std::string, bool, std::less<>> warned_;

  const Known& unit(const Element& entity, int depth = 0);
  Known read_unit(const Element& entity, int depth);
  Known si_unit(const Element& entity);
  Known conversion_based_unit(const Element& entity, int depth);
  Known derived_unit(const Element& entity, int depth);
  Known unknown(const Element& entity, const std::string& name);
  UnitScale assigned(const Measure& measure);
};

}  // namespace panel_dossier
