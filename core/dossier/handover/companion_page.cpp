#include "core/dossier/handover/companion_page.h"

#include <map>
#include <stdexcept>
#include <string>
#include <string_view>

#include "core/api/support/words.h"
#include "core/dossier/handover/companion_data.h"
#include "core/dossier/handover/handover_data.h"
#include "core/dossier/handover/html_text.h"
#include "core/intake/document/file_writer.h"
#include "core/intake/document/sha256.h"

namespace panel_dossier {

namespace {

/// A source of the page's policy: this text, and no other.
std::string only(std::string_view text) {
  const Digest digest = sha256(text);
  return "'sha256-" + base64({reinterpret_cast<const char*>(digest.data()), digest.size()}) + "'";
}

std::string state_of(const BuildSummary& build) {
  std::string state = build.issue.is_issue() ? "Issue " + build.issue.id : std::string("Working build, no issue");
  if (build.issue.is_issue() && !build.issue.status.empty()) state += ", " + build.issue.status;
  if (!build.signed_for_issue) state += ". Not signed for issue";
  return state + ".";
}

/// `2026-11-25 02:00 UTC` of the build's time; another text as it is.
std::string time_in_words(const std::string& time_utc) {
  constexpr std::size_t kLength = 20;
  const bool is_whole = time_utc.size() == kLength && time_utc[10] == 'T' && time_utc.back() == 'Z';
  return is_whole ? time_utc.substr(0, 10) + " " + time_utc.substr(11, 5) + " UTC" : time_utc;
}

std::string panels_in_words(std::size_t count) {
  if (count == 0) return "The project has no panels.";
  return std::to_string(count) + (count == 1 ? " panel" : " panels") + ".";
}

/// Each picture as data that the browser reads when it is asked for: its texts are escaped, so no element ends in it.
std::string picture_elements(const CompanionPictures& pictures) {
  std::string html;
  for (std::size_t i = 0; i < pictures.svg.size(); ++i) {
    html +=
        "<script type=\"image/svg+xml\" id=\"picture-" + std::to_string(i) + "\">" + pictures.svg[i] + "</script>\n";
  }
  return html;
}

/// The template with the pieces in the places `{{name}}`. What is put in is not looked at again.
void fill(std::string_view text, const std::map<std::string, std::string, std::less<>>& pieces, FileWriter& file) {
  while (true) {
    const std::size_t begin = text.find("{{");
    file.write(text.substr(0, begin));
    if (begin == std::string_view::npos) return;
    const std::size_t end = text.find("}}", begin);
    const auto piece = pieces.find(text.substr(begin + 2, end - begin - 2));
    if (piece == pieces.end()) throw std::logic_error("the companion page has a place for nothing");
    file.write(piece->second);
    text.remove_prefix(end + 2);
  }
}

}  // namespace

void write_companion(const HandoverContent& content, const std::filesystem::path& file,
                     std::size_t most_picture_bytes) {
  const Project& project = content.project();
  const BuildSummary& build = content.results().build;
  const CompanionPictures pictures = companion_pictures(project, most_picture_bytes);
  const std::string name = project.name.empty() ? "project without a name" : project.name;
  const std::map<std::string, std::string, std::less<>> pieces{
      {"style-source", only(handover_data::companion_css())},
      {"script-source", only(handover_data::companion_js())},
      {"style", std::string(handover_data::companion_css())},
      {"script", std::string(handover_data::companion_js())},
      {"title", html_escaped(name)},
      {"description", html_escaped(project.description)},
      {"buildings", html_escaped(joined(project.buildings))},
      {"state", html_escaped(state_of(build))},
      {"build", html_escaped(time_in_words(build.time_utc))},
      {"root", html_escaped(build.hash_tree_root)},
      {"count", panels_in_words(project.panels.size())},
      {"data", json_in_html(companion_json(content, pictures))},
      {"pictures", picture_elements(pictures)}};
  FileWriter writer(file);
  fill(handover_data::companion_html(), pieces, writer);
  writer.close();
}

}  // namespace panel_dossier
