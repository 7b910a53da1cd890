// companion.html: what is in it, that no name of a project becomes markup, and what people who use it by keyboard, with
// a screen reader or with weak eyes need. How it looks and works in a browser tests/companion/axe.sh shows.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <string>

#include "core/api/finding/roles.h"
#include "core/dossier/handover/companion_data.h"
#include "core/dossier/handover/companion_page.h"
#include "core/dossier/handover/handover_data.h"
#include "core/dossier/handover/html_text.h"
#include "core/intake/document/sha256.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

test::SyntheticDossier dossier_with_roles(std::size_t panels) {
  test::SyntheticDossier made = test::synthetic_dossier(panels, 5);
  test::claim(made.results.build, role::kMass, "thermal.check_0");
  made.project.name = "Example Hall";
  return made;
}

std::string companion_of(const test::SyntheticDossier& made, std::vector<PanelPage> pages = {},
                         std::size_t most_bytes = kMostPictures_bytes) {
  const DossierContent content = made.content();
  const auto file = test::temporary_file("companion.html");
  write_companion({content, std::move(pages), stated_inspections(content.project), {}}, file, most_bytes);
  return test::bytes_of(file);
}

std::string between(const std::string& text, const std::string& begin, const std::string& end) {
  const std::size_t from = text.find(begin);
  REQUIRE(from != std::string::npos);
  const std::size_t to = text.find(end, from + begin.size());
  REQUIRE(to != std::string::npos);
  return text.substr(from + begin.size(), to - from - begin.size());
}

json data_in(const std::string& page) {
  return json::parse(between(page, "<script type=\"application/json\" id=\"data\">", "</script>"));
}

std::size_t times(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++count;
  return count;
}

std::string shown(const json& data, const json& index) {
  return data.at("texts").at(index.get<std::size_t>()).get<std::string>();
}

/// All that the expression's first group finds.
std::vector<std::string> found_in(const std::string& text, const std::string& expression) {
  const std::regex wanted(expression);
  std::vector<std::string> found;
  for (auto at = std::sregex_iterator(text.begin(), text.end(), wanted); at != std::sregex_iterator(); ++at)
    found.push_back((*at)[1]);
  return found;
}

/// The page without the blocks of data and script, whose texts only look like markup.
std::string markup_of(const std::string& page) {
  return std::regex_replace(page, std::regex("<(script|style)([^>]*)>[^]*?</\\1>"), "<$1$2></$1>");
}

/// Relative luminance of `#rrggbb` (WCAG 2.2).
double luminance(const std::string& colour) {
  const auto channel = [&colour](std::size_t i) {
    const double value = std::stoi(colour.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(0) + 0.7152 * channel(1) + 0.0722 * channel(2);
}

double contrast(const std::string& a, const std::string& b) {
  const auto [dark, light] = std::minmax({luminance(a), luminance(b)});
  return (light + 0.05) / (dark + 0.05);
}

}  // namespace

TEST_CASE("A panel's data are its figures, open points, next inspection and page") {
  test::SyntheticDossier made = dossier_with_roles(3);
  Panel& panel = made.project.panels[1];
  panel.properties.add("Pset_ManufacturerOccurrence", "SerialNumber", {std::string("2026-7"), "", {}});
  panel.properties.add("Panel_Identity", "Batch", {std::string("B-4"), "", {}});
  panel.properties.add("Pset_Condition", "NextAssessmentDate", {std::string("2027-05-01"), "", {}});
  const json data = data_in(companion_of(made, {{"dossier.pdf", "9", 11}, {"dossier.pdf", "11", 13}, {}}));
  REQUIRE(data.at("panels").size() == 3);
  const json& second = data.at("panels")[1];
  CHECK(second.at("id") == panel.global_id);
  CHECK(second.at("mark") == "P-2");
  CHECK(second.at("serial") == "2026-7");
  CHECK(shown(data, second.at("batches")[0]) == "B-4");
  CHECK(shown(data, second.at("storey")) == "Ground floor");
  CHECK(second.at("page") == json::parse(R"(["dossier.pdf", "11", 13])"));
  CHECK(data.at("panels")[2].at("page").is_null());
  CHECK(shown(data, second.at("inspections")[0][0]) == "2027-05-01");
  bool has_mass = false;
  for (const json& fact : second.at("figures"))
    has_mass =
        has_mass || (shown(data, fact[0]) == "mass" && shown(data, fact[1]) == "0.150 W/(m²·K) (≤ 0.260 W/(m²·K))");
  CHECK(has_mass);
  // Of the five findings one passes and one has no limit.
  REQUIRE(second.at("open").size() == 3);
  CHECK(shown(data, second.at("open")[0][0]) == "fail");
  CHECK_THAT(shown(data, second.at("open")[0][2]), Contains("0.160 W/(m²·K) against 0.260 W/(m²·K)"));
}

TEST_CASE("Names that are markup, turn writing round or end a script stay texts") {
  const std::string evil = "</script><script>alert(1)</script><!--\" onload='x' &amp; \xE2\x80\xAE\x01 \xFF";
  test::SyntheticDossier made = dossier_with_roles(2);
  const std::string clean = companion_of(made);
  made.project.name = evil;
  made.project.description = evil;
  made.project.buildings = {evil};
  for (Panel& panel : made.project.panels) {
    panel.type = panel.building = evil;
    panel.mark += evil;
    panel.properties.add("Panel_Identity", "Batch", {evil, "", {}});
    for (Opening& opening : panel.openings) opening.filling_name = "<b>&";
  }
  for (PanelSummary& panel : made.results.panels) panel.storey = evil;
  const std::string page = companion_of(made);
  CHECK(times(page, "<script") == times(clean, "<script"));
  CHECK(times(page, "</script") == times(clean, "</script"));
  CHECK(times(page, "<!--") == 0);
  CHECK(times(markup_of(page), "onload='") == 0);
  for (const char* hidden : {"\xE2\x80\xAE", "\x01", "\xFF"}) CHECK(page.find(hidden) == std::string::npos);
  const json data = data_in(page);
  CHECK_THAT(data.at("panels")[0].at("mark").get<std::string>(),
             Contains("</script><script>") && Contains("<U+202E><U+0001> <0xFF>"));
  CHECK_THAT(page, Contains("&lt;/script&gt;"));
  CHECK_THAT(page, Contains("&lt;b&gt;&amp;</text>"));
}

TEST_CASE("Nothing comes from elsewhere and only the page's own script may run") {
  const std::string page = companion_of(dossier_with_roles(2));
  const std::string markup = markup_of(page);
  for (const char* load :
       {" src=", "href=\"http", "<link", "<iframe", "<object", "<img", "<base", " style=\"", " onclick"})
    CHECK(times(markup, load) == 0);
  const std::string style = between(page, "<style>", "</style>");
  for (const char* load : {"@import", "http:", "https:", "url(\""}) CHECK(times(style, load) == 0);
  const std::string script = between(page, "<script>", "</script>");
  for (const char* load :
       {"http:", "https:", "fetch(", "XMLHttpRequest", "import(", "eval(", "innerHTML", "document.write"})
    CHECK(times(script, load) == 0);
  const std::string policy = between(page, "Content-Security-Policy\" content=\"", "\"");
  CHECK_THAT(policy, Contains("default-src 'none'"));
  for (const std::string& text : {style, script}) {
    const Digest digest = sha256(text);
    CHECK_THAT(policy,
               Contains("'sha256-" + base64({reinterpret_cast<const char*>(digest.data()), digest.size()}) + "'"));
  }
  CHECK(times(policy, "unsafe") == 0);
}

TEST_CASE("Base64 is that of RFC 4648, 10") {
  const std::map<std::string, std::string> vectors{{"", ""},
                                                   {"f", "Zg=="},
                                                   {"fo", "Zm8="},
                                                   {"foo", "Zm9v"},
                                                   {"foob", "Zm9vYg=="},
                                                   {"fooba", "Zm9vYmE="},
                                                   {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) CHECK(base64(bytes) == text);
}

TEST_CASE("The page has a language, one first heading, headings in order, a skip link and a label for each field") {
  const std::string markup = markup_of(companion_of(dossier_with_roles(2)));
  CHECK_THAT(markup, Contains("<html lang=\"en\">") && Contains("<main>") && Contains("width=device-width"));
  const std::vector<std::string> levels = found_in(markup, "<h([1-6])");
  CHECK(std::count(levels.begin(), levels.end(), "1") == 1);
  CHECK(levels == std::vector<std::string>{"1", "2"});
  // The script adds the panel's own heading and those below it.
  const std::string script(handover_data::companion_js());
  CHECK(times(script, "make(\"h2\"") == 1);
  CHECK(times(script, "make(\"h3\"") == 1);
  const std::vector<std::string> ids = found_in(markup, " id=\"([^\"]+)\"");
  CHECK(std::set<std::string>(ids.begin(), ids.end()).size() == ids.size());
  CHECK(found_in(markup, "class=\"skip\" href=\"#([^\"]+)\"") == std::vector<std::string>{"search"});
  for (const std::string& field : found_in(markup, "<(?:input|select) id=\"([^\"]+)\"")) {
    INFO(field);
    CHECK(times(markup, "<label for=\"" + field + "\">") == 1);
  }
  CHECK(found_in(markup, "<(?:input|select) id=\"([^\"]+)\"").size() == 3);
  for (const std::string& named : found_in(markup, "aria-(?:labelledby|describedby)=\"([^\"]+)\"")) {
    INFO(named);
    CHECK((named == "panel-heading" || std::count(ids.begin(), ids.end(), named) == 1));
  }
}

TEST_CASE("Every id that the script asks for is in the page") {
  const std::string markup = markup_of(companion_of(dossier_with_roles(1)));
  const auto asked = found_in(std::string(handover_data::companion_js()), "(?:byId|getElementById)\\(\"([a-z-]+)\"\\)");
  CHECK(asked.size() > 10);
  for (const std::string& id : asked) {
    INFO(id);
    CHECK((times(markup, " id=\"" + id + "\"") == 1));
  }
}

TEST_CASE("The colours have the contrast that WCAG 2.2 asks of text and of what must be seen") {
  const std::string css(handover_data::companion_css());
  const auto colour = [&css](const std::string& name) { return between(css, "--" + name + ": ", ";"); };
  for (const char* ground : {"paper", "ground"}) {
    for (const char* ink : {"ink", "quiet", "accent", "open"}) {
      INFO(ink << " on " << ground);
      CHECK(contrast(colour(ink), colour(ground)) >= 4.5);
    }
    for (const char* mark : {"field", "focus"}) {
      INFO(mark << " on " << ground);
      CHECK(contrast(colour(mark), colour(ground)) >= 3.0);
    }
  }
  for (const char* ink : {"ink", "quiet", "open"}) CHECK(contrast(colour(ink), colour("open-ground")) >= 4.5);
  CHECK(contrast(colour("on-accent"), colour("accent")) >= 4.5);
  CHECK(contrast("#000000", "#ffffff") == Approx(21.0));
}

TEST_CASE("Equal panels share a picture, and beyond the bound the page says that there is none") {
  const test::SyntheticDossier made = dossier_with_roles(12);
  const CompanionPictures all = companion_pictures(made.project, kMostPictures_bytes);
  // Two widths, each with and without a window.
  CHECK(all.svg.size() == 4);
  CHECK(all.left_out == 0);
  CHECK(all.of_panel[0] == all.of_panel[6]);
  const CompanionPictures few = companion_pictures(made.project, all.svg[0].size());
  CHECK(few.svg.size() == 1);
  CHECK(few.of_panel[1] == -1);
  CHECK(few.left_out == 10);
  const json data = data_in(companion_of(made, {}, 0));
  CHECK(data.at("project").at("picturesLeftOut") == true);
  CHECK(data.at("panels")[0].at("picture") == -1);
}

TEST_CASE("A project without panels, and panels without a size, parts or results have a page") {
  test::SyntheticDossier none = dossier_with_roles(0);
  CHECK_THAT(companion_of(none), Contains("The project has no panels."));
  test::SyntheticDossier bare = dossier_with_roles(1);
  Panel& panel = bare.project.panels[0];
  panel = Panel{};
  panel.global_id = bare.results.panels[0].global_id;
  bare.results.panels[0].findings.clear();
  bare.project.name.clear();
  const std::string page = companion_of(bare);
  const json data = data_in(page);
  CHECK(data.at("panels")[0].at("picture") == -1);
  CHECK(data.at("project").at("picturesLeftOut") == false);
  CHECK_THAT(page, Contains("<title>Panels: project without a name</title>"));
}

TEST_CASE("The same content gives the same companion page") {
  const test::SyntheticDossier made = dossier_with_roles(4);
  CHECK(companion_of(made) == companion_of(made));
}

TEST_CASE("Laying out says on which page of the dossier each panel begins") {
  const test::SyntheticDossier made = test::synthetic_dossier(3, 2);
  const auto file = test::temporary_file("pages-of-panels.pdf");
  const std::vector<PanelPage> pages = write_dossier(made.content(), test::installed_fonts(), file);
  REQUIRE(pages.size() == 3);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string number = std::to_string(pages[i].number);
    const std::string text = test::output_of("pdftotext -f " + number + " -l " + number + " '" + file.string() + "' -");
    CHECK_THAT(text, Contains("\nPanel P-" + std::to_string(i + 1) + "\n"));
    CHECK_THAT(text, Contains("page " + pages[i].label + " of "));
    CHECK(pages[i].file == "dossier.pdf");
  }
}
