#include "core/api/support/data_table.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

using namespace panel_dossier;

namespace {

/// A file that lives as long as the object.
class TableFile {
 public:
  explicit TableFile(const std::string& text)
      : path_(std::filesystem::temp_directory_path() / ("panel_dossier_" + std::to_string(getpid()) + "_limits.csv")) {
    std::ofstream(path_, std::ios::binary) << text;
  }
  TableFile(const TableFile&) = delete;
  TableFile& operator=(const TableFile&) = delete;
  ~TableFile() { std::filesystem::remove(path_); }

  DataTable table() const { return DataTable(path_); }
  std::string name() const { return path_.filename().string(); }

 private:
  std::filesystem::path path_;
};

std::string error_of(const TableFile& file) {
  try {
    file.table();
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "no error";
}

}  // namespace

TEST_CASE("a cell comes with the row and source it stands in") {
  const TableFile file("key,limit,source\nEngland,0.26,\"Some rule, 2021, table 1\"\n");
  const auto limit = file.table().number("England", "limit");
  REQUIRE(limit);
  CHECK(limit->value == 0.26);
  CHECK(limit->origin.kind == OriginKind::data_table);
  CHECK(limit->origin.table == file.name());
  CHECK(limit->origin.row == "England");
  CHECK(limit->origin.source == "Some rule, 2021, table 1");
}

TEST_CASE("an absent row, absent column and empty cell are none") {
  const DataTable table = TableFile("key,limit,source\na,,s\n").table();
  CHECK_FALSE(table.number("b", "limit"));
  CHECK_FALSE(table.number("a", "other"));
  CHECK_FALSE(table.number("a", "limit"));
  CHECK_FALSE(table.text("a", "limit"));
}

TEST_CASE("a cell that is not wholly a finite number is text only") {
  const DataTable table = TableFile("key,v,w,x,source\na,12 mm,nan,1e999,s\n").table();
  CHECK_FALSE(table.number("a", "v"));
  CHECK_FALSE(table.number("a", "w"));
  CHECK_FALSE(table.number("a", "x"));
  CHECK(table.text("a", "v")->value == "12 mm");
}

TEST_CASE("quoted fields hold commas, quotes and line breaks") {
  const DataTable table = TableFile("key,words,source\na,\"one, \"\"two\"\"\r\nthree\",s\nb,,s\n").table();
  CHECK(table.text("a", "words")->value == "one, \"two\"\r\nthree");
  CHECK(table.has("b"));
}

TEST_CASE("comments, empty lines, CRLF, a byte order mark and a missing last line end are taken") {
  const DataTable table =
      TableFile("\xEF\xBB\xBF# a comment, with \"quotes\nkey,v,source\r\n\r\n# more\r\na,1,s\r\nb,2,t").table();
  CHECK(table.keys() == std::vector<std::string>{"a", "b"});
  CHECK(table.number("b", "v")->value == 2.0);
  CHECK(table.text("b", "source")->value == "t");
}

TEST_CASE("the text of a row names each of its cells once") {
  const TableFile file("key,limit,source\na,1,EN 1\nb,,EN 2\n");
  CHECK(file.table().row_text("a") == "key=a\nlimit=1\nsource=EN 1\n");
  CHECK(file.table().row_text("b") == "key=b\nlimit=\nsource=EN 2\n");
}

TEST_CASE("keys keep the order of the file") {
  CHECK(TableFile("key,source\nz,s\na,s\nm,s\n").table().keys() == std::vector<std::string>{"z", "a", "m"});
}

TEST_CASE("a table that breaks the rules is refused by file, line and reason") {
  struct BadTable {
    const char* label;
    const char* text;
    const char* line_and_reason;
  };
  const BadTable bad =
      GENERATE(BadTable{"empty", "", ":1: no header line"}, BadTable{"comments only", "# a\n\n", ":1: no header line"},
               BadTable{"no key", "# a\nname,source\n", ":2: columns 'key' and 'source' are required"},
               BadTable{"no source", "key,value\n", ":1: columns 'key' and 'source' are required"},
               BadTable{"nameless column", "key,source,\n", ":1: a column has no name"},
               BadTable{"column twice", "key,source,key\n", ":1: column 'key' stands twice"},
               BadTable{"short row", "key,v,source\na,1,s\nb,2\n", ":3: 2 fields, the header has 3"},
               BadTable{"long row", "key,source\na,s,1\n", ":2: 3 fields, the header has 2"},
               BadTable{"empty key", "key,source\n,s\n", ":2: empty key"},
               BadTable{"empty source", "key,source\na,\n", ":2: row 'a' names no source"},
               BadTable{"key twice", "key,source\na,s\n\"b\nb\",s\na,s\n", ":5: key 'a' stands twice"},
               BadTable{"open quote", "key,source\na,\"s\nb,s\n", ":2: a quoted field is not closed"},
               BadTable{"text after quote", "key,source\na,\"s\" t\n", ":2: text after a closing quote"},
               BadTable{"quote in a plain field", "key,source\na,6\" pipe\n",
                        ":2: a quote inside a field; quote the whole field and double it"});
  INFO(bad.label);
  const TableFile file(bad.text);
  CHECK(error_of(file) == file.name() + bad.line_and_reason);
}

TEST_CASE("a table that cannot be read is refused by its path") {
  CHECK_THROWS_WITH(DataTable("/nonexistent/limits.csv"), "/nonexistent/limits.csv:0: cannot read the data table");
}

TEST_CASE("every data table of the plugins obeys the rules") {
  int tables = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(PANEL_DOSSIER_SOURCE_DIR "/plugins")) {
    if (entry.path().extension() != ".csv" || entry.path().parent_path().filename() != "data") continue;
    CHECK_NOTHROW(DataTable(entry.path()));
    ++tables;
  }
  CHECK(tables > 0);
}
