// Cases of the project's utilisation.
#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const RegisterCases kUtilisation{
    as_drawn({.check = "structural.utilisation",
              .sound_project = sound_project,
              .sound_settings = sound_settings,
              .cases = {{.label = "the largest of all checks", .verdict = Verdict::information},
                        {.label = "beyond 1 where a check fails",
                         .change = wind_of(9000.0),
                         .verdict = Verdict::information,
                         .also_moves = {"*"}}}})};

}  // namespace
