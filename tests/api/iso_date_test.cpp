#include "core/api/support/iso_date.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

TEST_CASE("A date is a day that the calendar has") {
  for (const char* day : {"2026-01-01", "2026-12-31", "2026-04-30", "2028-02-29", "2000-02-29"}) {
    INFO(day);
    CHECK(is_iso_date(day));
  }
  for (const char* none : {"2026-06-31", "2026-02-29", "2026-02-30", "1900-02-29", "2026-00-10", "2026-13-01",
                           "2026-01-00", "2026-01-32"}) {
    INFO(none);
    CHECK_FALSE(is_iso_date(none));
  }
}

TEST_CASE("A date is written as YYYY-MM-DD and no other way") {
  for (const char* other : {"", "2026-1-01", "2026/01/01", "01-01-2026", "2026-01-01T00:00", "2026-O1-01", "20260101",
                            "-026-01-01", "2026-01- 1"}) {
    INFO(other);
    CHECK_FALSE(is_iso_date(other));
  }
}

TEST_CASE("Days between two dates are counted over months and leap years, and backwards") {
  CHECK(days_between("2026-02-27", "2026-03-02") == 3);
  CHECK(days_between("2028-02-28", "2028-03-01") == 2);
  CHECK(days_between("2026-06-01", "2026-06-01") == 0);
  CHECK(days_between("2026-06-02", "2026-06-01") == -1);
  CHECK_FALSE(days_between("2026-06-31", "2026-07-01"));
  CHECK_FALSE(days_between("2026-06-01", ""));
}
