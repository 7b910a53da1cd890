#include "core/intake/document/sha256.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;

TEST_CASE("The digest of a file is the digest of its bytes, whatever its size") {
  const testing::TemporaryFolder dir;
  for (const std::size_t size : {std::size_t{0}, std::size_t{1}, std::size_t{65536}, std::size_t{65537}}) {
    const std::string bytes(size, 'x');
    CHECK(sha256_file(dir.write("file", bytes)) == sha256(bytes));
  }
}

TEST_CASE("The digest of pieces is that of the whole") {
  Sha256 hasher;
  for (const char* piece : {"pan", "", "el"}) hasher.add(piece);
  CHECK(hasher.finish() == sha256("panel"));
  CHECK(Sha256().finish() == sha256(""));
}

TEST_CASE("An unreadable file is refused by name") {
  const testing::TemporaryFolder dir;
  CHECK_THROWS_WITH(sha256_file(dir.path() / "absent"), Catch::Contains("absent") && Catch::Contains("No such file"));
  CHECK_THROWS_WITH(sha256_file(dir.path()), Catch::Contains("cannot read"));
}

TEST_CASE("A digest survives its hexadecimal form") {
  const Digest digest = sha256("panel");
  CHECK(digest_from_hex(to_hex(digest)) == digest);
}

TEST_CASE("Text that is no digest is refused") {
  CHECK_THROWS_AS(digest_from_hex("abc"), std::runtime_error);
  for (const char wrong : {'A', 'g'}) {
    std::string hex(64, '0');
    hex.back() = wrong;
    CHECK_THROWS_AS(digest_from_hex(hex), std::runtime_error);
  }
}
