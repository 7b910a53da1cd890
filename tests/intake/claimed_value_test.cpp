#include "core/intake/claims/claimed_value.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <variant>

using namespace panel_dossier;

namespace {

Property claim_of(std::variant<double, bool, std::string> value, const std::string& unit = {}) {
  return {std::move(value), unit, {}};
}

}  // namespace

TEST_CASE("Two sources agree but for rounding, and for the case of letters") {
  CHECK(is_same_claim(claim_of(2.4), claim_of(2400.0 * 0.001)));
  CHECK(is_same_claim(claim_of(2.4), claim_of(2.4002)));
  CHECK_FALSE(is_same_claim(claim_of(2.4), claim_of(2.401)));
  CHECK(is_same_claim(claim_of(0.0), claim_of(0.0)));
  CHECK_FALSE(is_same_claim(claim_of(0.0), claim_of(0.001)));
  CHECK(is_same_claim(claim_of(std::string(" c24 ")), claim_of(std::string("C24"))));
  CHECK_FALSE(is_same_claim(claim_of(std::string("C24")), claim_of(std::string("C30"))));
  CHECK(is_same_claim(claim_of(true), claim_of(true)));
  CHECK_FALSE(is_same_claim(claim_of(true), claim_of(1.0)));
}

TEST_CASE("A claim is shown with its unit and without the digits that a conversion left") {
  CHECK(claim_in_words(claim_of(2.6870000000000003, "m")) == "2.687 m");
  CHECK(claim_in_words(claim_of(0.13)) == "0.13");
  CHECK(claim_in_words(claim_of(std::string("C24"))) == "'C24'");
  CHECK(claim_in_words(claim_of(false)) == "false");
}
