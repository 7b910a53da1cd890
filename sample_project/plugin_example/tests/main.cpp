// Runs the registered cases of the plugin and what every plugin promises; exit status 0 when nothing is wrong.
#include "core/api/testing/run_cases.h"

int main() {
  return panel_dossier::testing::run_cases(PANEL_DOSSIER_TESTED_PLUGIN);
}
