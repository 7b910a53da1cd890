// Replacements over a study period.
#include <catch2/catch.hpp>

#include "plugins/carbon/account/modules.h"

using namespace panel_dossier::carbon;

// EN 15978:2011, 9.3.3: N_R(j) = E[ReqSL / ESL(j) − 1], where E rounds up to the next whole number. From memory. Whole
// numbers, so exact.
TEST_CASE("replacements are whole periods of service after the first") {
  struct Case {
    double period;
    double life;
    double times;
  };
  const Case c = GENERATE(Case{60, 60, 0}, Case{60, 30, 1}, Case{60, 25, 2}, Case{60, 20, 2}, Case{60, 59, 1},
                          Case{50, 15, 3}, Case{60, 100, 0});
  INFO(c.period << " years, life " << c.life);
  CHECK(replacements(c.period, c.life) == c.times);
}
