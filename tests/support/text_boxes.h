// Where the words of a PDF stand, as pdftotext sees them.
#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/api/testing/temporary_folder.h"

namespace panel_dossier::testing {

struct WordBox {
  double left = 0.0;
  double top = 0.0;  ///< down from the upper edge of the page, points
  double right = 0.0;
  double bottom = 0.0;
  std::string word;
};

/// The words of each page.
inline std::vector<std::vector<WordBox>> word_boxes(const std::filesystem::path& pdf) {
  const TemporaryFolder folder;
  const std::filesystem::path boxes = folder.path() / "boxes.html";
  if (std::system(("pdftotext -bbox '" + pdf.string() + "' '" + boxes.string() + "'").c_str()) != 0) {
    throw std::runtime_error("pdftotext cannot read " + pdf.string());
  }
  std::ifstream stream(boxes);
  const std::string listed{std::istreambuf_iterator<char>(stream), {}};
  std::vector<std::vector<WordBox>> pages;
  for (std::size_t at = listed.find("\n  <page "); at != std::string::npos;) {
    const std::size_t end = listed.find("\n  <page ", at + 1);
    std::vector<WordBox>& page = pages.emplace_back();
    for (std::size_t word = listed.find("<word ", at); word < end && word != std::string::npos;
         word = listed.find("<word ", word + 1)) {
      const std::size_t text = listed.find('>', word) + 1;
      const std::string tag = listed.substr(word, text - word);
      WordBox box;
      if (std::sscanf(tag.c_str(), R"(<word xMin="%lf" yMin="%lf" xMax="%lf" yMax="%lf">)", &box.left, &box.top,
                      &box.right, &box.bottom) != 4) {
        throw std::runtime_error("a word without its box: " + tag);
      }
      box.word = listed.substr(text, listed.find("</word>", text) - text);
      page.push_back(std::move(box));
    }
    at = end;
  }
  return pages;
}

/// `page 57: 'board' over 'scale'` for words that stand over one another, and `page 57: 'board' at the edge of the
/// page`, for what is beyond the page is not told. The box of a word is as high as its line; only the middle half of it
/// is held to be ink, so that lines may be close.
inline std::vector<std::string> overprinted_words(const std::filesystem::path& pdf) {
  constexpr double kPageWidth = 595.3;
  constexpr double kPageHeight = 841.9;
  constexpr double kEdge = 12.0;
  constexpr double kRounding = 0.3;  // points, of neighbours that touch
  std::vector<std::string> found;
  std::size_t number = 0;
  for (std::vector<WordBox>& page : word_boxes(pdf)) {
    const std::string where = "page " + std::to_string(++number) + ": '";
    for (WordBox& box : page) {
      const double quarter = (box.bottom - box.top) / 4.0;
      box = {box.left + kRounding, box.top + quarter, box.right - kRounding, box.bottom - quarter, box.word};
    }
    std::sort(page.begin(), page.end(), [](const WordBox& a, const WordBox& b) { return a.left < b.left; });
    for (std::size_t i = 0; i < page.size(); ++i) {
      const WordBox& one = page[i];
      if (one.left < kEdge || one.top < kEdge || one.right > kPageWidth - kEdge || one.bottom > kPageHeight - kEdge) {
        found.push_back(where + one.word + "' at the edge of the page");
      }
      for (std::size_t j = i + 1; j < page.size() && page[j].left < one.right; ++j) {
        const WordBox& other = page[j];
        if (one.left < other.right && one.top < other.bottom && other.top < one.bottom) {
          found.push_back(where + one.word + "' over '" + other.word + "'");
        }
      }
    }
  }
  return found;
}

}  // namespace panel_dossier::testing
