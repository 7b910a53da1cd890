// What a plugin says of a few panels of the sample, held line by line.
#pragma once

#include <string>
#include <vector>

namespace panel_dossier::testing {

/// tests/PLUGIN/held_settings.json names the panels of the sample, and variants of its settings by what is put over
/// them (a JSON merge patch of RFC 7396 each). Runs the shared object of the plugin under the sample's settings and
/// each variant, and holds every finding, every check that does not apply and every column of the output tables against
/// tests/PLUGIN/held_findings.csv; of a variant only what differs from the sample. Gives what differs, one text each;
/// how a wanted difference is accepted HeldFile says. A discipline without held_settings.json holds nothing.
std::vector<std::string> held_findings_faults(const std::string& plugin);

/// Holds the whole finding of every registered case against tests/PLUGIN/held_cases.csv: what a case does not look at,
/// such as steps, tables and drawings, is noticed here.
std::vector<std::string> held_cases_faults(const std::string& plugin);

}  // namespace panel_dossier::testing
