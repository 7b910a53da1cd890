// Finished dossiers against the rules of archival files and of tagged structure, and what the rules notice.
#include <array>
#include <catch2/catch.hpp>
#include <cstdint>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>
#include <set>

#include "core/dossier/layout/structure.h"
#include "core/seal/srgb_profile.h"
#include "tests/dossier/synthetic_project.h"
#include "tests/seal/archival_rules.h"
#include "tests/seal/seal_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Pages of a small project, finished as a dossier.
std::filesystem::path archival_dossier(const TemporaryFolder& folder, std::size_t panels, std::size_t findings) {
  auto made = test::synthetic_dossier(panels, findings);
  made.results.build.time_utc = kBuildTime;
  write_dossier(made.content(), test::installed_fonts(), folder.path() / "pages.pdf");
  const auto file = folder.path() / "finished.pdf";
  finish_dossier(folder.path() / "pages.pdf", made.results,
                 {{"results.json", "application/json", "results", "Data", "{}"}}, 8192, file);
  return file;
}

std::string joined_faults(const std::vector<std::string>& faults) {
  std::string text;
  for (const std::string& fault : faults) text += fault + "\n";
  return text;
}

/// What is wrong with the dossier after a change of its objects.
template <typename Change>
std::string faults_after(const Change& change) {
  static const TemporaryFolder small;
  static const std::filesystem::path sound = archival_dossier(small, 1, 2);
  const TemporaryFolder folder;
  QPDF pdf;
  pdf.processFile(sound.c_str());
  change(pdf);
  const auto file = folder.path() / "changed.pdf";
  QPDFWriter writer(pdf, file.c_str());
  writer.setDeterministicID(true);
  writer.write();
  return joined_faults(archival_faults(file));
}

QPDFObjectHandle first_of(QPDF& pdf, const std::string& key, const std::string& name) {
  for (QPDFObjectHandle object : pdf.getAllObjects()) {
    if (object.isDictionary() && object.getKey(key).isNameAndEquals(name)) return object;
  }
  throw std::runtime_error("no " + name);
}

}  // namespace

TEST_CASE("A finished dossier keeps the rules of PDF/A-3u and of tagged structure that it relies on") {
  const TemporaryFolder folder;
  CHECK(joined_faults(archival_faults(archival_dossier(folder, 3, 12))) == "");
}

TEST_CASE("Other programs find panels and derivations by name") {
  const TemporaryFolder folder;
  QPDF pdf;
  pdf.processFile(archival_dossier(folder, 2, 3).c_str());
  std::set<std::string> names;
  QPDFObjectHandle nodes = pdf.getRoot().getKey("/Names").getKey("/Dests").getKey("/Kids");
  for (QPDFObjectHandle node : nodes.getArrayAsVector()) {
    QPDFObjectHandle list = node.getKey("/Names");
    for (int i = 0; i + 1 < list.getArrayNItems(); i += 2) {
      names.insert(list.getArrayItem(i).getStringValue());
      CHECK(list.getArrayItem(i + 1).getArrayItem(0).getKey("/Type").isNameAndEquals("/Page"));
    }
    CHECK(node.getKey("/Limits").getArrayItem(0).getStringValue() == list.getArrayItem(0).getStringValue());
  }
  CHECK(names.contains("panel-P-1"));
  CHECK(names.contains("derivation-1"));
}

TEST_CASE("Headings go down one level at a time, and a list goes on as long as nothing comes between") {
  StructureTree tree;
  CHECK(tree.elements()[tree.add(Tag::heading3, 0)].tag == Tag::heading1);
  CHECK(tree.elements()[tree.add(Tag::heading3, 0)].tag == Tag::heading2);
  CHECK(tree.elements()[tree.add(Tag::heading3, 0)].tag == Tag::heading3);
  CHECK(tree.elements()[tree.add(Tag::heading1, 0)].tag == Tag::heading1);
  const ElementId list = tree.add(Tag::list, 0);
  CHECK(tree.last_of(Tag::list, 0) == list);
  tree.add(Tag::paragraph, 0);
  CHECK(tree.last_of(Tag::list, 0) == 0);
  const ElementId cell = tree.add(Tag::cell, list, "read instead");
  CHECK(tree.alternate(cell) == "read instead");
  CHECK(tree.mark(cell, 7) == 0);
  CHECK(tree.mark(list, 7) == 1);
  CHECK(tree.owners(7) == std::vector<ElementId>{cell, list});
  CHECK(tree.owners(8).empty());
  CHECK(tree.annotate(cell, 7) == 0);
  CHECK(tree.annotation_owners() == std::vector<ElementId>{cell});
}

TEST_CASE("The colour profile is whole, and its primaries add up to its white") {
  const std::string profile = srgb_profile();
  const auto number = [&](std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8U | static_cast<unsigned char>(profile.at(at + i));
    return value;
  };
  CHECK(number(0) == profile.size());
  std::array<double, 3> sum{};
  std::array<double, 3> white{};
  for (std::size_t tag = 0; tag < number(128); ++tag) {
    const std::string name = profile.substr(132 + 12 * tag, 4);
    const std::size_t place = number(136 + 12 * tag);
    REQUIRE(place % 4 == 0);
    REQUIRE(place + number(140 + 12 * tag) <= profile.size());
    if (name.substr(1) != "XYZ" && name != "wtpt") continue;
    for (std::size_t i = 0; i < 3; ++i) (name == "wtpt" ? white : sum).at(i) += number(place + 8 + 4 * i) / 65536.0;
  }
  // IEC 61966-2-1:1999, 5.2: ((c + 0.055) / 1.055)^2.4 above 0.04045, c / 12.92 below (from memory).
  const std::size_t curve = profile.find("para");
  REQUIRE(curve != std::string::npos);
  CHECK(number(curve + 8) == 3U << 16U);
  const std::array<double, 5> transfer{2.4, 0.947867, 0.0521327, 0.0773994, 0.04045};
  for (std::size_t i = 0; i < transfer.size(); ++i)
    CHECK(number(curve + 12 + 4 * i) / 65536.0 == Approx(transfer.at(i)).margin(1.0 / 65536.0));
  // The white is stated to four digits (ISO 15076-1, 7.2.16).
  for (std::size_t i = 0; i < 3; ++i) CHECK(sum.at(i) == Approx(white.at(i)).margin(5e-4));
}

TEST_CASE("A font that is not embedded and text of no element are noticed") {
  const TemporaryFolder folder;
  const ResultsDocument document = exported_document();
  const auto file = folder.path() / "plain.pdf";
  finish_dossier(write_pages(folder, "text"), document, attachments_of(document), 4096, file);
  const std::string faults = joined_faults(archival_faults(file));
  CHECK_THAT(faults, Catch::Contains("6.2.11.4: not embedded: /Helvetica") && Catch::Contains("no structure"));
}

TEST_CASE("Each change that breaks a rule of the archival form is noticed", "[plain]") {
  using Object = QPDFObjectHandle;
  const auto catalog = [](const char* key, const char* value) {
    return [=](QPDF& pdf) { pdf.getRoot().replaceKey(key, Object::parse(value)); };
  };
  const auto changed = [](const char* kind, const char* name, const char* key, const char* value) {
    return [=](QPDF& pdf) { first_of(pdf, kind, name).replaceKey(key, Object::parse(value)); };
  };
  CHECK_THAT(faults_after(catalog("/OutputIntents", "null")), Catch::Contains("6.2.3: no output intent"));
  CHECK_THAT(faults_after(catalog("/OCProperties", "<< >>")), Catch::Contains("the catalog has /OCProperties"));
  CHECK_THAT(faults_after(catalog("/Metadata", "null")), Catch::Contains("6.6.2.1: no metadata"));
  CHECK_THAT(faults_after(catalog("/Lang", "null")), Catch::Contains("7.2: no language"));
  CHECK_THAT(faults_after(catalog("/AF", "null")), Catch::Contains("6.8: not associated: results.json"));
  CHECK_THAT(faults_after(changed("/Subtype", "/Link", "/F", "0")), Catch::Contains("6.3.2: flags"));
  CHECK_THAT(faults_after(changed("/Subtype", "/Link", "/Contents", "null")),
             Catch::Contains("7.18.5: a link without words"));
  CHECK_THAT(faults_after(changed("/S", "/Figure", "/Alt", "null")), Catch::Contains("7.3: nothing is read"));
  CHECK_THAT(faults_after(changed("/S", "/TH", "/A", "null")), Catch::Contains("no scope"));
  CHECK_THAT(faults_after(changed("/S", "/TR", "/S", "/P")), Catch::Contains("within /P"));
  CHECK_THAT(faults_after(changed("/S", "/H2", "/S", "/H4")), Catch::Contains("a level of headings is left out"));
  CHECK_THAT(faults_after(changed("/S", "/P", "/K", "[ 9999 ]")), Catch::Contains("elements hold marks that no page"));
  CHECK_THAT(faults_after(changed("/Subtype", "/Type0", "/ToUnicode", "null")), Catch::Contains("6.2.11.7.2"));
  CHECK_THAT(faults_after([](QPDF& pdf) {
               pdf.getRoot().replaceKey("/OpenAction", Object::parse("<< /Type /Action /S /JavaScript /JS (x) >>"));
             }),
             Catch::Contains("/JS in object") && Catch::Contains("6.5.1: action"));
}
