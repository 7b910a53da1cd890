// In which sizes the words of a PDF are set, as its pages say themselves.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier::testing {

/// The last `N` numbers before `end` in the operators of a page.
template <std::size_t N>
std::array<double, N> operands_before(std::string_view operators, std::size_t end) {
  std::array<double, N> numbers{};
  for (std::size_t i = N; i-- > 0;) {
    const std::size_t last = operators.find_last_not_of(" \n", end - 1);
    const std::size_t start = operators.find_last_of(" \n", last) + 1;
    numbers[i] = std::strtod(std::string(operators.substr(start, last + 1 - start)).c_str(), nullptr);
    end = start;
  }
  return numbers;
}

/// The smallest size of text on each page in points: what `Tf` chooses, times the scale of `Tm`, at each `Tj`. Infinite
/// for a page without text. Texts must be written in hexadecimal, as the dossier's are.
inline std::vector<double> least_text_sizes(const std::filesystem::path& file) {
  QPDF pdf;
  pdf.processFile(file.string().c_str());
  std::vector<double> least;
  for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(pdf).getAllPages()) {
    double& smallest = least.emplace_back(HUGE_VAL);
    for (QPDFObjectHandle& stream : page.getPageContents()) {
      const auto data = stream.getStreamData(qpdf_dl_generalized);
      const std::string_view operators(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
      double size = 0.0;
      double scale = 1.0;
      for (std::size_t at = operators.find(" T"); at != std::string_view::npos; at = operators.find(" T", at + 1)) {
        const char kind = at + 2 < operators.size() ? operators[at + 2] : ' ';
        if (kind == 'f') size = operands_before<1>(operators, at)[0];
        if (kind == 'm') {
          const auto matrix = operands_before<6>(operators, at);
          scale = std::hypot(matrix[2], matrix[3]);
        }
        if (kind == 'j') smallest = std::min(smallest, size * scale);
      }
    }
  }
  return least;
}

/// `page 57: text of 6 pt` for each page with text that is smaller than `least` points.
inline std::vector<std::string> pages_with_small_text(const std::filesystem::path& file, double least) {
  constexpr double kRounding = 0.01;
  std::vector<std::string> found;
  const std::vector<double> sizes = least_text_sizes(file);
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (sizes[i] < least - kRounding)
      found.push_back("page " + std::to_string(i + 1) + ": text of " + std::to_string(sizes[i]) + " pt");
  }
  return found;
}

}  // namespace panel_dossier::testing
