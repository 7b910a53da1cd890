#include "core/intake/document/file_writer.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/document/file_bytes.h"

using namespace panel_dossier;

TEST_CASE("What is written piece by piece stands in the file one behind the other") {
  const testing::TemporaryFolder dir;
  const auto file = dir.write("file", "what stood there before and was longer");
  FileWriter writer(file);
  for (const char* piece : {"one", "", " two", "\n"}) writer.write(piece);
  writer.close();
  CHECK(read_file(file) == "one two\n");
}

TEST_CASE("A file that cannot be begun and a disk that is full are told by name") {
  const testing::TemporaryFolder dir;
  CHECK_THROWS_WITH(FileWriter(dir.path() / "absent" / "file"),
                    Catch::Contains("cannot write") && Catch::Contains("No such file"));
  FileWriter full("/dev/full");
  const auto fill = [&full] {
    full.write(std::string(100'000, 'x'));
    full.close();
  };
  CHECK_THROWS_WITH(fill(), Catch::Contains("/dev/full") && Catch::Contains("No space left"));
}
