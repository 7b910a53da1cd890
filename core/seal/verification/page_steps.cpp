#include "core/seal/verification/page_steps.h"

#include <algorithm>
#include <cstddef>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/intake/document/sha256.h"
#include "core/seal/finish.h"
#include "core/seal/pages/page_list.h"
#include "core/trace/hash_tree.h"
#include "core/trace/record.h"

namespace panel_dossier {

namespace {

/// Nothing in dossiers from before they had a list.
std::vector<ListedPage> attached_list(const std::map<std::string, std::string>& attachments) {
  const auto found = attachments.find(std::string(kPagesAttachment));
  return found == attachments.end() ? std::vector<ListedPage>() : page_list_from(found->second);
}

std::string pages_compared(const AttachedContent& content, QPDF& pdf) {
  const std::vector<ListedPage> listed = attached_list(content.attachments);
  if (listed.empty()) return "the dossier is from before it had a list of them";
  const std::vector<ListedPage> pages = page_list(pdf);
  require_step(pages.size() == listed.size(), "the file has " + std::to_string(pages.size()) +
                                                  " pages and the list that was signed " +
                                                  std::to_string(listed.size()));
  for (std::size_t i = 0; i < pages.size(); ++i) {
    require_step(pages[i].sha256 == listed[i].sha256 && pages[i].bookmark == listed[i].bookmark,
                 "page " + std::to_string(i + 1) + " is not the one that was listed");
  }
  return std::to_string(pages.size()) + " pages";
}

/// The pages under the bookmark of that name, the first and one behind the last, from 0. Equal where there are none.
std::pair<std::size_t, std::size_t> pages_under(const std::vector<ListedPage>& pages, const std::string& bookmark) {
  const auto is_there = [&bookmark](const ListedPage& page) { return page.bookmark == bookmark; };
  const auto first = std::find_if(pages.begin(), pages.end(), is_there);
  const auto last = std::find_if_not(first, pages.end(), is_there);
  return {static_cast<std::size_t>(first - pages.begin()), static_cast<std::size_t>(last - pages.begin())};
}

bool states(QPDF& pdf, std::pair<std::size_t, std::size_t> pages, const std::string& text) {
  for (std::size_t i = pages.first; i < pages.second; ++i) {
    if (plain_text(pdf, i).find(text) != std::string::npos) return true;
  }
  return false;
}

std::string hashes_printed(const AttachedContent& content, const ResultsDocument& results, QPDF& pdf) {
  const std::vector<ListedPage> pages = attached_list(content.attachments);
  std::size_t found = 0;
  for (const PanelSummary& panel : results.panels) {
    const auto own = pages_under(pages, panel.mark);
    if (own.first == own.second) continue;
    ++found;
    require_step(states(pdf, own, panel.hash),
                 "the pages of panel '" + panel.mark + "' do not state the hash that results.json has for it");
  }
  return std::to_string(found) + " of " + std::to_string(results.panels.size()) + " panels have pages in this file";
}

const PanelSummary& panel_named(const ResultsDocument& results, const std::string& name) {
  const auto found = std::find_if(results.panels.begin(), results.panels.end(), [&name](const PanelSummary& panel) {
    return panel.mark == name || panel.global_id == name;
  });
  if (found == results.panels.end()) throw std::runtime_error("the dossier has no panel '" + name + "'");
  return *found;
}

std::string path_proved(const ResultsDocument& results, const PanelSummary& panel, const std::string& xmp) {
  const auto index = static_cast<std::size_t>(&panel - results.panels.data());
  const std::vector<Digest> leaves = hash_tree_leaves(results);
  const std::vector<Digest> path = inclusion_path(leaves, index);
  const std::string root = hash_tree_root_of(xmp);
  require_step(leads_to_root(leaves[index], index, leaves.size(), path, digest_from_hex(root)),
               "its path of hashes does not lead to the signed root " + root);
  std::string text = "leaf " + std::to_string(index + 1) + " of " + std::to_string(leaves.size());
  for (const Digest& sibling : path) text += ", with " + to_hex(sibling);
  return text + ", to the root " + root;
}

std::string pages_proved(const std::string& file, QPDF& pdf, const std::vector<ListedPage>& listed,
                         const PanelSummary& panel) {
  const auto own = pages_under(listed, panel.mark);
  const std::vector<ListedPage> pages = page_list(pdf);
  std::string hashes;
  for (std::size_t i = own.first; i < own.second; ++i) {
    require_step(i < pages.size() && pages[i].sha256 == listed[i].sha256,
                 "page " + std::to_string(i + 1) + " of '" + file + "' is not the one that was listed");
    hashes += "; " + pages[i].sha256;
  }
  require_step(states(pdf, own, panel.hash), "its pages do not state its hash " + panel.hash);
  return "pages " + std::to_string(own.first + 1) + " to " + std::to_string(own.second) + " of '" + file + "'" + hashes;
}

/// In the dossier itself, or in the volume beside it that has pages of the panel; its hash is a step of its own.
std::string pages_found(const AttachedContent& content, const PanelSummary& panel, QPDF& pdf) {
  const std::vector<ListedPage> own = attached_list(content.attachments);
  if (const auto found = pages_under(own, panel.mark); found.first != found.second) {
    return pages_proved(content.file.filename().string(), pdf, own, panel);
  }
  const auto volumes = content.attachments.find(std::string(kVolumesAttachment));
  if (volumes != content.attachments.end()) {
    for (const auto& [name, unused] : volumes_named(volumes->second)) {
      QPDF volume;
      volume.setSuppressWarnings(true);
      volume.processFile((content.project_dir / name).c_str());
      const std::vector<ListedPage> listed = attached_list(read_attachments(volume));
      if (const auto found = pages_under(listed, panel.mark); found.first != found.second) {
        return pages_proved(name, volume, listed, panel);
      }
    }
  }
  throw std::runtime_error("neither the dossier nor a volume has pages under its mark '" + panel.mark + "'");
}

}  // namespace

void add_page_step(StepList& steps, const AttachedContent& content, QPDF& pdf) {
  steps.run("the pages are those of the list that was signed", [&] { return pages_compared(content, pdf); });
}

void add_panel_steps(StepList& steps, const AttachedContent& content, const ResultsDocument& results, QPDF& pdf) {
  steps.run("the pages of the panels state the hashes of their results",
            [&] { return hashes_printed(content, results, pdf); });
  if (content.panel.empty()) return;
  const std::string whose = "panel '" + content.panel + "': ";
  const PanelSummary* panel = nullptr;
  const bool known = steps.run(whose + "its data and findings have its hash", [&] {
    panel = &panel_named(results, content.panel);
    require_step(panel_hash(panel->data_hash, panel->findings) == panel->hash, "they have another");
    return panel->hash;
  });
  if (!known) return;
  steps.run(whose + "its hash leads to the signed root", [&] { return path_proved(results, *panel, content.xmp); });
  steps.run(whose + "its pages are those that were signed", [&] { return pages_found(content, *panel, pdf); });
}

}  // namespace panel_dossier
