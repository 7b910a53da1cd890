// A PDF in the making: pages, marks on them, what the marks are, bookmarks and links. Its source and structure_writer
// are all that knows libharu.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/dossier/dossier.h"
#include "core/dossier/layout/structure.h"
#include "core/dossier/layout/style.h"

namespace panel_dossier {

using Segment = std::pair<Vec2, Vec2>;
/// At which end of a page label its place lies.
enum class LabelEnd { left, right };

/// Label of the page of an anchor, by its name.
using PageLabels = std::map<std::string, std::string, std::less<>>;

/// Owns the document and its fonts. Pages stay open until `save`, so marks may be added to any page in any order.
/// Points are in points from the lower left page corner. Not thread-safe. Every member throws std::runtime_error with
/// the PDF library's error code when the library refuses.
class PdfDocument {
 public:
  /// Loads and embeds the faces. Throws std::runtime_error naming the font file that cannot be read.
  /// `elsewhere` holds what page references to anchors of other documents say.
  explicit PdfDocument(const DossierFonts& fonts, PageLabels elsewhere = {});
  ~PdfDocument();
  PdfDocument(const PdfDocument&) = delete;
  PdfDocument& operator=(const PdfDocument&) = delete;

  /// Adds an A4 portrait page and returns its index.
  std::size_t add_page();
  std::size_t page_count() const;

  /// `text` as it can be set: control characters become spaces, characters that neither the face nor the face for signs
  /// has and broken UTF-8 become U+FFFD, which is visible on the page.
  std::string printable(std::string_view text, Face face) const;
  /// Advance width in points.
  double text_width(std::string_view text, Face face, double size) const;

  /// Sets one line of text from the baseline point `at`; `angle_rad` turns it anticlockwise.
  void text(std::size_t page, Vec2 at, std::string_view text, const TextStyle& style, double angle_rad = 0.0);
  void segments(std::size_t page, const std::vector<Segment>& segments, const Stroke& stroke);
  void line(std::size_t page, Vec2 from, Vec2 to, const Stroke& stroke) { segments(page, {{from, to}}, stroke); }
  void polyline(std::size_t page, const std::vector<Vec2>& points, const Stroke& stroke);
  void polygon(std::size_t page, const Polygon& outline, const std::optional<Colour>& fill,
               const std::optional<Stroke>& stroke);
  void rectangle(std::size_t page, const Rect& rect, const std::optional<Colour>& fill,
                 const std::optional<Stroke>& stroke);
  /// Fills all of them as one path.
  void squares(std::size_t page, const std::vector<Rect>& rects, const Colour& fill);

  /// A new element within the open one; `alternate` is what is read in its place, which a figure must have.
  ElementId add_element(Tag tag, std::string_view alternate = {});
  /// The last thing within the open element when it is of that type, else a new element of it.
  ElementId continued_element(Tag tag);
  /// What is drawn from now on, on whatever page, belongs to the element, until it is closed. While none is open, or
  /// one that holds other elements only, it is an artifact: rules, grounds, running heads.
  void open_element(ElementId element);
  ElementId opened_element() const;
  void close_element();
  const StructureTree& structure() const;

  /// Names a place that links lead to; the first place of a name stands.
  void anchor(const std::string& name, std::size_t page, double top);
  /// The page of an anchor; none while it is not yet set.
  std::optional<std::size_t> anchor_page(const std::string& name) const;
  /// A place of the file that other programs may name, after `#nameddest=` in an address; the first of a name stands.
  void named_destination(const std::string& name, std::size_t page, double top);
  /// Makes `area` lead to the anchor, which may be set later. A link to an anchor never set is dropped at `save`.
  void link(std::size_t page, const Rect& area, const std::string& anchor_name);

  /// Adds a bookmark under `parent` and returns its number.
  std::size_t bookmark(std::optional<std::size_t> parent, const std::string& title, std::size_t page, double top);
  /// From `page` on, labels count from 1 in roman or arabic figures, behind `prefix` (`A` for `A1`, `A2` …).
  void page_labels(std::size_t page, bool roman_figures, const std::string& prefix = {});
  /// The label of a page and of the last page counted with it: `iii` and `iv`, `12` and `340`.
  std::pair<std::string, std::string> page_label(std::size_t page) const;
  /// At `save`, sets the label of the anchor's page, here or elsewhere, with that end at `place`; `–` for an
  /// anchor never set.
  void page_reference(std::size_t page, Vec2 place, const std::string& anchor_name, const TextStyle& style,
                      LabelEnd end = LabelEnd::right);
  /// Of every anchor of this document.
  PageLabels labels_of_anchors() const;
  /// `time_utc` is ISO 8601 as in BuildSummary; it stands for both dates of the document.
  void information(const std::string& title, const std::string& subject, const std::string& time_utc);

  /// Writes the file. Throws std::runtime_error naming it when it cannot be written.
  void save(const std::filesystem::path& file);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// While it lives, what is drawn belongs to the element.
class Tagged {
 public:
  Tagged(PdfDocument& pdf, Tag tag, std::string_view alternate = {}) : Tagged(pdf, pdf.add_element(tag, alternate)) {}
  Tagged(PdfDocument& pdf, ElementId element) : pdf_(pdf) { pdf.open_element(element); }
  ~Tagged() { pdf_.close_element(); }
  Tagged(const Tagged&) = delete;
  Tagged& operator=(const Tagged&) = delete;

 private:
  PdfDocument& pdf_;
};

/// One element that several blocks draw into; copies are the same. It is made when the first of them is drawn.
class BlockElement {
 public:
  explicit BlockElement(Tag tag) : tag_(tag), element_(std::make_shared<ElementId>(0)) {}

  /// The element, within what is open.
  ElementId in(PdfDocument& pdf) const {
    if (*element_ == 0) *element_ = pdf.add_element(tag_);
    return *element_;
  }

 private:
  Tag tag_;
  std::shared_ptr<ElementId> element_;  // 0 until it is made
};

}  // namespace panel_dossier
