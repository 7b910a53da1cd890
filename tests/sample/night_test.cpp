// Night after night: what a run keeps beside its output, what it tells in the morning, and what it does not touch.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::vector<std::string> told_lines(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

std::size_t number_of_files(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

std::string build_at(const SmallProject& project, const fs::path& out, const std::string& day) {
  return quoted(PANEL_DOSSIER_PROGRAM) + " build " + quoted(project.export_file()) + " --out " + quoted(out) +
         " --build-time " + day + "T02:00:00Z";
}

void replace_in(const fs::path& file, const std::string& before, const std::string& after) {
  std::string text = text_of(file);
  const std::size_t at = text.find(before);
  REQUIRE(at != std::string::npos);
  text.replace(at, before.size(), after);
  std::ofstream(file, std::ios::binary) << text;
}

/// Plugins of which one is damaged.
fs::path damaged_plugins(const fs::path& folder) {
  const fs::path plugins = folder / "plugins";
  fs::copy(PANEL_DOSSIER_PLUGIN_DIR, plugins, fs::copy_options::recursive);
  std::ofstream(plugins / "carbon.so", std::ios::trunc) << "damaged\n";
  return plugins;
}

}  // namespace

TEST_CASE("Nights are compared with the last night and the last issue, causes first", "[plain]") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const CommandResult issue =
      run_command(build_at(project, out, "2026-06-01") + " --issue P02 --status 'for comment' --labels");
  INFO(issue.err);
  REQUIRE(issue.status == 1);
  CHECK_THAT(issue.out, Contains("issue: issue P02, for comment"));
  const fs::path kept = project.folder() / "out.issues" / "P02";
  CHECK(text_of(kept / "results.json") == text_of(out / "results.json"));
  CHECK(text_of(kept / "dossier.pdf") == text_of(out / "dossier.pdf"));
  CHECK_THAT(run_command("pdftotext -l 1 -layout " + quoted(kept / "dossier.pdf") + " -").out,
             Contains("P02, for comment"));

  REQUIRE(run_command(build_at(project, out, "2026-06-02")).status == 1);
  CHECK_FALSE(fs::exists(out / "issue.json"));
  replace_in(project.folder() / "settings.json", "\"basic_velocity_m_per_s\": 22.5",
             "\"basic_velocity_m_per_s\": 25.0");
  const fs::path summary = project.folder() / "morning";
  const CommandResult night =
      run_command(build_at(project, out, "2026-06-03") + " --summary " + quoted(summary) + " --quiet");
  REQUIRE(night.status == 1);
  const std::vector<std::string> lines = told_lines(night.out);
  REQUIRE(lines.size() == 5);
  CHECK_THAT(lines[0], Catch::Matchers::StartsWith("state: FAILS: "));
  CHECK_THAT(lines[1], Contains("since issue P02 (for comment) of 2026-06-01T02:00:00Z") &&
                           Contains("since the build of 2026-06-02T02:00:00Z"));
  CHECK_THAT(lines[2], Contains("setting structural.wind.basic_velocity_m_per_s: 22.5 -> 25 (") &&
                           Contains(" figures, ") && !Contains("not attributed"));
  CHECK(lines[4] == "dossier: " + (out / "dossier.pdf").string());

  const std::string text = text_of(summary.string() + ".txt");
  CHECK_THAT(text, Contains(night.out) && Contains("What fails or is open"));
  const std::string html = text_of(summary.string() + ".html");
  CHECK_THAT(html, Contains("22.5 -&gt; 25") && !Contains("<script"));
  CHECK(run_command("xmllint --html --noout " + quoted(fs::path(summary.string() + ".html"))).err.empty());

  const CommandResult pages = run_command("pdftotext -layout " + quoted(out / "dossier.pdf") + " -");
  CHECK_THAT(pages.out, Contains("Since issue P02 (for comment) of 2026-06-01T02:00:00Z") &&
                            Contains("Since the build of 2026-06-02T02:00:00Z") && Contains("From build to build"));
  CHECK(told_lines(text_of(project.folder() / "out.history.jsonl")).size() == 3);

  const CommandResult again = run_command(build_at(project, out, "2026-06-04") + " --issue P02");
  CHECK(again.status == 3);
  CHECK_THAT(again.err, Contains("issue 'P02' was made"));

  const CommandResult printed =
      run_command(quoted(PANEL_DOSSIER_PROGRAM) + " compare --json " + quoted(kept) + " " + quoted(out));
  const auto comparison = nlohmann::json::parse(printed.out);
  REQUIRE(comparison.at("causes").size() == 1);
  CHECK(comparison.at("causes")[0].at("name") == "structural.wind.basic_velocity_m_per_s");
  CHECK(comparison.at("causes")[0].at("effects").at("figures") > 0);
  CHECK(comparison.at("not_attributed").at("figures") == 0);
}

TEST_CASE("An incomplete build goes to a folder beside and replaces no whole one, unless it is told to") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const fs::path aside = project.folder() / "out.incomplete";
  const std::string incomplete = build_command(project.export_file(), out) + " --without-own-plugins --plugins " +
                                 quoted(damaged_plugins(project.folder()));
  const CommandResult first = run_command(incomplete);
  CHECK(first.status == 3);
  CHECK_FALSE(fs::exists(out));
  CHECK(fs::exists(aside / "dossier.pdf"));
  CHECK_THAT(first.err, Contains("the build is incomplete and goes to '" + aside.string() + "'"));

  REQUIRE(run_command(build_command(project.export_file(), out)).status == 1);
  CHECK_FALSE(fs::exists(aside));
  const std::string whole = text_of(out / "dossier.pdf");
  CHECK(run_command(incomplete).status == 3);
  CHECK(text_of(out / "dossier.pdf") == whole);
  CHECK_THAT(text_of(aside / "results.json"), Contains("\"incomplete\": true"));

  CHECK(run_command(incomplete + " --replace-with-incomplete").status == 3);
  CHECK_THAT(text_of(out / "results.json"), Contains("\"incomplete\": true"));
  CHECK(run_command(incomplete + " --replace-with-incomplete --issue P01").status == 64);
}

TEST_CASE("A run that fails or is refused leaves its log and a summary, and old logs are taken away") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const fs::path summary = project.folder() / "morning.txt";
  const std::string refused = build_command("/nonexistent.ifcxml", out) + " --keep-logs 2 --summary " + quoted(summary);
  const fs::path logs = project.folder() / "out.logs";
  fs::create_directory(logs);
  std::ofstream(logs / "2020-01-01T02-00-00Z.log") << "old\n";
  std::ofstream(logs / "notes.log") << "somebody's\n";
  const CommandResult result = run_command(refused);
  CHECK(result.status == 2);
  CHECK(told_lines(result.out).size() == 5);
  CHECK_THAT(text_of(summary),
             Contains("state: NO BUILD: the input is refused") && Contains("cannot read '/nonexistent.ifcxml'"));
  CHECK(fs::exists(logs / "2020-01-01T02-00-00Z.log"));
  run_command(refused);
  CHECK_FALSE(fs::exists(logs / "2020-01-01T02-00-00Z.log"));
  CHECK(number_of_files(logs) == 3);
  CHECK(fs::exists(logs / "notes.log"));
  for (const auto& entry : fs::directory_iterator(logs)) {
    if (entry.path().filename() == "notes.log") continue;
    CHECK_THAT(text_of(entry.path()), Contains("error: cannot read '/nonexistent.ifcxml'"));
  }
}

TEST_CASE("A dry run says what would be done, and writes nothing") {
  const SmallProject project(1);
  const std::size_t before = number_of_files(project.folder());
  const CommandResult result =
      run_command(build_command(project.export_file(), project.folder() / "out") + " --dry-run --issue P01");
  INFO(result.err);
  CHECK(result.status == 0);
  CHECK_THAT(result.out, Contains("panels: 1") && Contains("checks of 5 plugins") &&
                             Contains("would keep it as issue P01") && Contains("dossier.pdf") &&
                             Contains("nothing was computed, nothing was written"));
  CHECK(number_of_files(project.folder()) == before);
}

TEST_CASE("A quiet run says warnings, errors and five lines, a verbose one names every input", "[plain]") {
  const SmallProject project(1);
  const std::string build = build_command(project.export_file(), project.folder() / "out");
  const CommandResult quiet = run_command(build + " --quiet");
  CHECK_THAT(quiet.err, !Contains("info: ") && !Contains("laying out") && Contains("warning: "));
  CHECK(told_lines(quiet.out).size() == 5);
  CHECK_THAT(run_command(build + " --verbose").err, Contains("debug: plugin carbon "));
  CHECK(run_command(build + " --quiet --verbose").status == 64);
}

TEST_CASE("A build that bears an earlier time than the last one says so, in the log and on the page", "[plain]") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  REQUIRE(run_command(build_at(project, out, "2026-06-02")).status == 1);
  const CommandResult earlier = run_command(build_at(project, out, "2026-06-01"));
  CHECK_THAT(earlier.err, Contains("an earlier build bears the later time 2026-06-02T02:00:00Z"));
  const auto results = nlohmann::json::parse(text_of(out / "results.json"));
  CHECK(results.at("build").at("warnings").size() == 1);
  CHECK_THAT(run_command("pdftotext -layout " + quoted(out / "dossier.pdf") + " -").out,
             Contains("an earlier build bears the later time"));
}

TEST_CASE("A history with a damaged line goes on, and a night that a kill left out of it is made good", "[plain]") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const fs::path history = project.folder() / "out.history.jsonl";
  REQUIRE(run_command(build_at(project, out, "2026-06-01")).status == 1);
  std::ofstream(history) << "{\"time_utc\": \"2026-0";
  const CommandResult next = run_command(build_at(project, out, "2026-06-02"));
  CHECK_THAT(next.err, Contains("1 lines of the history of builds cannot be read"));
  CHECK(told_lines(text_of(history)).size() == 2);
}

TEST_CASE("A key file that others may write is refused, and one that they may read is warned of") {
  const SmallProject project(1);
  const fs::path key = project.folder() / "key.p12";
  const std::string make_key =
      "cd " + quoted(project.folder()) +
      " && openssl req -x509 -newkey rsa:2048 -nodes -keyout key.pem -out cert.pem -days 36500 -subj /CN=Practice "
      "&& openssl pkcs12 -export -inkey key.pem -in cert.pem -out key.p12 -passout pass:secret";
  REQUIRE(run_command(make_key).status == 0);
  const std::string build = "KEY=secret " + quoted(PANEL_DOSSIER_PROGRAM) + " build " + quoted(project.export_file()) +
                            " --out " + quoted(project.folder() / "out") + " --sign-key " + quoted(key) +
                            " --password-env KEY --dry-run";
  fs::permissions(key, fs::perms(0622));
  const CommandResult refused = run_command(build);
  CHECK(refused.status == 3);
  CHECK_THAT(refused.err, Contains("can be written by others than its owner") && Contains("chmod 600"));
  fs::permissions(key, fs::perms(0644));
  const CommandResult warned = run_command(build);
  CHECK(warned.status == 0);
  CHECK_THAT(warned.err, Contains("can be read by others than its owner"));
  fs::permissions(key, fs::perms(0600));
  CHECK_THAT(run_command(build).err, !Contains("by others"));

  // With the practice's own key a whole build is signed for issue.
  const std::string whole = build.substr(0, build.rfind(" --dry-run"));
  REQUIRE(run_command(whole + " --no-store").status == 1);
  const CommandResult issued = run_command(verify_now_command(project.folder() / "out" / "dossier.pdf"));
  CHECK(issued.status == 0);
  CHECK_THAT(issued.out, !Contains("not signed for issue"));
  const CommandResult checked =
      run_command("cd " + quoted(project.folder()) + " && KEY=secret " + quoted(PANEL_DOSSIER_PROGRAM) +
                  " sign out/dossier.pdf --out checked.pdf --role checker --sign-key key.p12 --password-env KEY");
  CHECK(checked.status == 0);
  CHECK_THAT(checked.out, Contains("signed as checker by 'CN=Practice', "));

  // An incomplete build is not signed for issue, whatever key is given; and a build time makes no key valid again.
  auto settings = nlohmann::json::parse(text_of(project.folder() / "settings.json"), nullptr, true, true);
  settings["plugins"]["expected"] = {"acoustics"};
  std::ofstream(project.folder() / "settings.json") << settings;
  const CommandResult incomplete = run_command(whole + " --no-store");
  CHECK(incomplete.status == 3);
  const CommandResult verified = run_command(quoted(PANEL_DOSSIER_PROGRAM) + " verify " +
                                             quoted(project.folder() / "out.incomplete" / "dossier.pdf") + " --trust " +
                                             quoted(project.folder() / "out.incomplete" / "signing-certificate.pem"));
  INFO(verified.out);
  CHECK(verified.status == 4);
  CHECK_THAT(verified.out, Contains("OPEN   the build is incomplete") && Contains("its key is a demonstration key"));
}
