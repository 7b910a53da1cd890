#include "core/seal/pdf_date.h"

#include <catch2/catch.hpp>
#include <stdexcept>

using namespace panel_dossier;

TEST_CASE("ISO times become PDF dates and back") {
  CHECK(pdf_date("2026-11-25T02:03:04Z") == "D:20261125020304Z");
  CHECK(iso_from_pdf_date("D:20261125020304Z") == "2026-11-25T02:03:04Z");
  CHECK(seconds_from_iso("1970-01-02T00:00:01Z") == 86401);
}

TEST_CASE("Times of another form are refused") {
  for (const char* text : {"", "2026-11-25", "2026-11-25T02:03:04", "2026-02-30T00:00:00Z", "2026-1-1T0:0:0Z",
                           "2026-11-25T02:03:04Z ", "2026-11-25T24:00:00Z"}) {
    CHECK_THROWS_AS(seconds_from_iso(text), std::runtime_error);
  }
  for (const char* text : {"", "D:2026", "20261125020304Z00", "D:20261325020304Z", "D:20261125020304+"}) {
    CHECK_THROWS_AS(iso_from_pdf_date(text), std::runtime_error);
  }
}
