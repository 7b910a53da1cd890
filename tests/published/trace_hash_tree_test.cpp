// Hashes, the hash tree and canonical JSON against published vectors. All recalled from memory: the texts were not at
// hand. A digest recalled wrongly would not match, so agreement confirms code and recollection together.
#include <bit>
#include <catch2/catch.hpp>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "core/intake/document/sha256.h"
#include "core/pipeline/record/json.h"
#include "core/trace/hash_tree.h"

using namespace panel_dossier;

TEST_CASE("SHA-256 gives the digests of FIPS 180-4's examples") {
  // NIST, FIPS 180-4 (2015), example computations of SHA-256: one block, two blocks, a million times 'a'; from memory.
  CHECK(to_hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(to_hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(to_hex(sha256(std::string(1000000, 'a'))) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("The hash tree gives the roots of the certificate transparency reference data") {
  // RFC 6962 (2013), 2.1, with the leaves and roots of the reference implementation's test data; from memory.
  const std::string leaf_data[] = {
      std::string(),
      std::string("\x00", 1),
      "\x10",
      "\x20\x21",
      "\x30\x31",
      "\x40\x41\x42\x43",
      "\x50\x51\x52\x53\x54\x55\x56\x57",
      "\x60\x61\x62\x63\x64\x65\x66\x67\x68\x69\x6a\x6b\x6c\x6d\x6e\x6f",
  };
  const std::string roots[] = {
      "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
      "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
      "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
      "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
      "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
      "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
      "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
      "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
  };
  std::vector<Digest> leaves;
  for (std::size_t i = 0; i < std::size(leaf_data); ++i) {
    leaves.push_back(leaf_hash(leaf_data[i]));
    CHECK(to_hex(tree_root(leaves)) == roots[i]);
  }
}

TEST_CASE("The hash tree without leaves is the digest of the empty string") {
  // RFC 6962 (2013), 2.1: MTH({}) = SHA-256(); the digest from memory.
  CHECK(to_hex(tree_root({})) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("Canonical numbers are those of RFC 8785's sample") {
  // RFC 8785 (2020), appendix B, number serialization samples: bits of the double and its text; from memory.
  const std::pair<std::uint64_t, std::string> samples[] = {
      {0x0000000000000000, "0"},
      {0x8000000000000000, "0"},
      {0x0000000000000001, "5e-324"},
      {0x8000000000000001, "-5e-324"},
      {0x7fefffffffffffff, "1.7976931348623157e+308"},
      {0xffefffffffffffff, "-1.7976931348623157e+308"},
      {0x4340000000000000, "9007199254740992"},
      {0xc340000000000000, "-9007199254740992"},
      {0x4430000000000000, "295147905179352830000"},
      {0x44b52d02c7e14af5, "9.999999999999997e+22"},
      {0x44b52d02c7e14af6, "1e+23"},
      {0x44b52d02c7e14af7, "1.0000000000000001e+23"},
      {0x444b1ae4d6e2ef4e, "999999999999999700000"},
      {0x444b1ae4d6e2ef4f, "999999999999999900000"},
      {0x444b1ae4d6e2ef50, "1e+21"},
      {0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
      {0x3eb0c6f7a0b5ed8d, "0.000001"},
      {0x41b3de4355555553, "333333333.3333332"},
      {0x41b3de4355555554, "333333333.33333325"},
      {0x41b3de4355555555, "333333333.3333333"},
      {0x41b3de4355555556, "333333333.3333334"},
      {0x41b3de4355555557, "333333333.33333343"},
      {0xbecbf647612f3696, "-0.0000033333333333333333"},
      {0x43143ff3c1cb0959, "1424953923781206.2"},
  };
  for (const auto& [bits, text] : samples) CHECK(shortest_number(std::bit_cast<double>(bits)) == text);
}

TEST_CASE("Canonical JSON is that of RFC 8785's sample") {
  // RFC 8785 (2020), 3.2.2 and 3.2.3, sample input and its canonical form; from memory.
  const auto input = nlohmann::ordered_json::parse(R"({
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
    "literals": [null, true, false]
  })");
  CHECK(canonical_json(input) == R"({"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],)"
                                 R"("string":"€$\u000f\nA'B\"\\\\\"/"})");
}

TEST_CASE("Canonical members are sorted by UTF-16 code units as in RFC 8785's sample") {
  // RFC 8785 (2020), 3.2.3, sorting sample: a surrogate pair comes before U+FB33; from memory.
  const auto input = nlohmann::ordered_json::parse(R"({
    "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
    "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
  })");
  std::vector<std::string> values;
  const auto sorted = nlohmann::ordered_json::parse(canonical_json(input));
  for (const auto& [name, value] : sorted.items()) values.push_back(value.get<std::string>());
  CHECK(values == std::vector<std::string>{"Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis",
                                           "Euro Sign", "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"});
}
