#include "core/trace/history.h"

#include <catch2/catch.hpp>

#include "core/api/finding/roles.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

HistoryEntry night(const std::string& time_utc) {
  auto document = sample_document();
  document.build.time_utc = time_utc;
  PluginSummary plugin;
  plugin.id = "quantities";
  CheckDeclaration mass;
  mass.id = "quantities.mass";
  mass.role = role::kMass;
  plugin.checks = {mass};
  document.build.plugins = {plugin};
  return history_entry(document, open_points(document));
}

}  // namespace

TEST_CASE("A build's line of the history holds verdicts, causes and the figures of the roles") {
  History history("");
  history.add(night("2026-11-25T02:00:00Z"));
  const History read(history.text());
  REQUIRE(read.entries().size() == 1);
  const HistoryEntry& entry = read.entries().front();
  CHECK(entry.time_utc == "2026-11-25T02:00:00Z");
  CHECK(entry.hash_tree_root == sample_document().build.hash_tree_root);
  CHECK(entry.panels == 3);
  CHECK(entry.verdicts.pass == 3);
  CHECK(entry.verdicts.fail == 3);
  CHECK(entry.causes.fail == 1);
  REQUIRE(entry.figures.size() == 1);
  CHECK(entry.figures[0].role == "mass");
  CHECK(entry.figures[0].value == 1200.0);
  CHECK(entry.figures[0].unit == "kg");
  CHECK(read.text() == history.text());
}

TEST_CASE("A line of the history that cannot be read is left out and counted") {
  History history("");
  history.add(night("2026-11-25T02:00:00Z"));
  history.add(night("2026-11-26T02:00:00Z"));
  const std::string whole = history.text();
  const History read(whole.substr(0, whole.size() - 20) + "\n{}\n\n\x01\n" + whole);
  CHECK(read.damaged_lines() == 3);
  CHECK(read.entries().size() == 2);
}

TEST_CASE("The history takes one build once, and drops the oldest beyond its length") {
  History history("");
  history.add(night("2026-11-25T02:00:00Z"));
  history.add(night("2026-11-25T02:00:00Z"));
  CHECK(history.entries().size() == 1);
  const HistoryEntry entry = night("2026-11-25T02:00:00Z");
  for (std::size_t i = 0; i < History::kLongest; ++i) {
    HistoryEntry other = entry;
    other.time_utc = std::to_string(i);
    history.add(other);
  }
  CHECK(history.entries().size() == History::kLongest);
  CHECK(history.entries().front().time_utc == "0");
}
