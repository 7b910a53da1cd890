#include "core/intake/claims/table_confirmations.h"

#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;

namespace {

/// A plugin's folder with one data table and a file that is none.
class Tables {
 public:
  Tables() {
    folder_.write(
        "limits.csv",
        "# comment\nkey,limit,source\nmoss,1.5,\"EN 0000:2000, table 1 (from memory)\"\nfern,2,common practice\n");
    folder_.write("properties.csv", "set,property\nA,B\n");
  }

  std::vector<DataTableRow> rows() const { return table_rows({{"garden", folder_.path()}}); }

 private:
  testing::TemporaryFolder folder_;
};

struct Read {
  std::vector<TableConfirmation> confirmations;
  Diagnostics diagnostics;
};

Read read(const std::string& lines, const std::vector<DataTableRow>& rows) {
  Read result;
  result.confirmations = read_table_confirmations("table,row,hash,edition,name,role,day\n" + lines, "confirmations.csv",
                                                  rows, "2026-06-01", result.diagnostics);
  return result;
}

std::string line_of(const DataTableRow& row, const std::string& day) {
  return row.table + "," + row.row + "," + row.hash + ",\"EN 0000:2000, 2nd\",A. Fictional,engineer," + day + "\n";
}

}  // namespace

TEST_CASE("The rows of all data tables have a hash of their content") {
  const auto rows = Tables().rows();
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].plugin == "garden");
  CHECK(rows[0].table == "limits.csv");
  CHECK(rows[0].row == "moss");
  CHECK(is_from_memory(rows[0].source));
  CHECK_FALSE(is_from_memory(rows[1].source));
  // printf 'key=moss\nlimit=1.5\nsource=EN 0000:2000, table 1 (from memory)\n' | sha256sum
  CHECK(rows[0].hash == "4f2f033579b3f42931eb92827c6bdb9ae2b1377b5bbae6ddd81c1e412b99d966");
}

TEST_CASE("A confirmation of the row as it is counts until its day") {
  const auto rows = Tables().rows();
  const Read good = read("# checked in the library\n" + line_of(rows[0], "2026-06-01"), rows);
  CHECK(good.diagnostics.empty());
  REQUIRE(good.confirmations.size() == 1);
  CHECK(good.confirmations[0].edition == "EN 0000:2000, 2nd");
}

TEST_CASE("What confirms nothing that is there is an error with its line") {
  const auto rows = Tables().rows();
  DataTableRow changed = rows[0];
  changed.hash = rows[1].hash;
  DataTableRow unknown = rows[0];
  unknown.row = "oak";
  const auto fault = [&](const std::string& lines) {
    const Read result = read(lines, rows);
    CHECK(result.confirmations.empty());
    REQUIRE(result.diagnostics.size() == 1);
    CHECK(result.diagnostics[0].severity == Severity::error);
    CHECK(result.diagnostics[0].line == 2);
    return result.diagnostics[0].message;
  };
  CHECK(fault(line_of(changed, "2026-05-01")).find("has another hash") != std::string::npos);
  CHECK(fault(line_of(unknown, "2026-05-01")) == "no plugin has a row 'oak' of 'limits.csv'");
  CHECK(fault(line_of(rows[0], "2026-06-02")) == "the day '2026-06-02' is none that has been");
  CHECK(fault(line_of(rows[0], "2026-02-30")) == "the day '2026-02-30' is none that has been");
  DataTableRow elsewhere = rows[0];
  elsewhere.table = "elsewhere.csv";
  const Read absent = read(line_of(elsewhere, "2026-05-01"), rows);
  REQUIRE(absent.diagnostics.size() == 1);
  CHECK(absent.diagnostics[0].severity == Severity::warning);
  CHECK(fault("limits.csv,moss," + rows[0].hash + ",,,,\n").find("has not the fields") != std::string::npos);
}

TEST_CASE("The form holds every row, the confirmed ones as they are") {
  const auto rows = Tables().rows();
  const Read confirmed = read(line_of(rows[1], "2026-05-01"), rows);
  const std::string form = confirmation_form(rows, confirmed.confirmations);
  CHECK(form ==
        "table,row,hash,edition,name,role,day\n# garden, to be confirmed: EN 0000:2000, table 1 (from memory)\n# "
        "limits.csv,moss," +
            rows[0].hash + ",,,,\n" + line_of(rows[1], "2026-05-01"));
  // The form can be read as it is: what is not confirmed stands in comments.
  Diagnostics diagnostics;
  CHECK(read_table_confirmations(form, "form", rows, "2026-06-01", diagnostics).size() == 1);
  CHECK(diagnostics.empty());
}
