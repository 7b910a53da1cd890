// The ways by which bytes from outside come in, each as one function that a fuzzer and the tests call.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace panel_dossier::fuzz {

/// What is wrong with the bytes a target must tell in its own way: a diagnostic, or std::runtime_error, which the
/// target keeps to itself. Anything else that leaves it, std::logic_error among it, is a fault of the program.
struct Target {
  std::string_view name;  ///< folder of its seeds and finds
  void (*run)(std::string_view bytes);
};

/// An export in any form of ifcXML, read as a project and weighed.
void read_ifcxml(std::string_view bytes);
/// The same in STEP form or zipped.
void read_step(std::string_view bytes);
/// A table of library or records: CSV, a workbook, or the bare XML of a sheet, which is put into a workbook first, as
/// its packing would hide it from a fuzzer.
void read_table(std::string_view bytes);
/// Settings, held against the schema of program and plugins.
void read_settings_file(std::string_view bytes);
/// results.json, which must read back from what it is written as.
void read_results(std::string_view bytes);
/// A dossier, verified.
void verify_file(std::string_view bytes);

inline constexpr std::array<Target, 6> kTargets{{{"ifcxml", read_ifcxml},
                                                 {"step", read_step},
                                                 {"table", read_table},
                                                 {"settings", read_settings_file},
                                                 {"results", read_results},
                                                 {"dossier", verify_file}}};

}  // namespace panel_dossier::fuzz
