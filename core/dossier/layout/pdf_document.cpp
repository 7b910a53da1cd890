#include "core/dossier/layout/pdf_document.h"

#include <hpdf.h>
#include <hpdf_pages.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <stdexcept>
#include <string_view>

#include "core/dossier/layout/structure_writer.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/layout/whole_pdf.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kFaces = 3;
constexpr std::size_t kSigns = kFaces;  // index of the face for what those lack
// The library caps an array at 32767 entries; a page tree of two levels stays far below it.
constexpr HPDF_UINT kPagesPerNode = 256;

constexpr char32_t kLastCode = 0xFFFF;  // the library's encoder ends here
constexpr int kUnknown = -1;
constexpr int kNoGlyph = -2;

// The library refuses a text of more than 32767 bytes, and the whole dossier with it. No line of a page is as long, and
// no viewer shows more of a title.
constexpr std::size_t kLongestShown_bytes = 8000;
constexpr std::size_t kLongestTitle_bytes = 500;

constexpr HPDF_INT32 kPrinted = 4;  // flag of an annotation (ISO 32000-2:2020, table 167)

/// The text up to the last whole character within so many bytes.
std::string_view cut(std::string_view text, std::size_t longest_bytes) {
  if (text.size() <= longest_bytes) return text;
  const auto goes_on = [&](std::size_t at) { return (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U; };
  while (longest_bytes > 0 && goes_on(longest_bytes)) --longest_bytes;
  return text.substr(0, longest_bytes);
}

std::string hexadecimal(HPDF_STATUS code) {
  std::array<char, 16> digits{};
  std::snprintf(digits.data(), digits.size(), "0x%04lX", static_cast<unsigned long>(code));
  return digits.data();
}

// libharu's C frames hold no resources across the call of its error handler, so throwing through them is safe; its own
// documentation uses this handler form for C++.
void throw_library_error(HPDF_STATUS code, HPDF_STATUS detail, void* /*user_data*/) {
  throw std::runtime_error("the PDF library refused a call with error " + hexadecimal(code) + ", detail " +
                           std::to_string(detail) + "; see the error codes of libharu, and check fonts and disk space");
}

HPDF_REAL real(double value) {
  return static_cast<HPDF_REAL>(value);
}

// What was last set on a page, so that unchanged settings are not written again.
struct PageState {
  HPDF_Page handle = nullptr;
  std::optional<ElementId> marked;  // owner of the marked content that is open; the document stands for an artifact
  std::optional<Colour> fill;
  std::optional<Colour> stroke;
  double line_width = -1.0;
  int dash_on = 0;
  int dash_off = 0;
};

struct Anchor {
  std::size_t page = 0;
  HPDF_Destination destination = nullptr;
};

struct PendingLink {
  std::size_t page;
  Rect area;
  std::string anchor;
  ElementId element;
};

struct PendingReference {
  std::size_t page;
  Vec2 place;
  std::string anchor;
  TextStyle style;
  LabelEnd end;
  ElementId element;
};

struct LabelRange {
  std::size_t first_page;
  bool roman;
  std::string prefix;
};

std::string roman(std::size_t number) {
  static constexpr std::array<std::pair<std::size_t, const char*>, 9> kFigures{
      {{100, "c"}, {90, "xc"}, {50, "l"}, {40, "xl"}, {10, "x"}, {9, "ix"}, {5, "v"}, {4, "iv"}, {1, "i"}}};
  std::string text;
  for (const auto& [value, figure] : kFigures) {
    for (; number >= value; number -= value) text += figure;
  }
  return text;
}

}  // namespace

struct PdfDocument::State {
  HPDF_Doc document = nullptr;
  std::array<HPDF_Font, kFaces + 1> fonts{};
  std::array<HPDF_FontDef, kFaces + 1> definitions{};
  std::array<std::vector<int>, kFaces + 1> advances;
  std::vector<PageState> pages;
  std::map<std::string, Anchor, std::less<>> anchors;
  PageLabels elsewhere;
  std::vector<PendingLink> links;
  std::vector<PendingReference> references;
  std::vector<LabelRange> label_ranges;
  std::vector<HPDF_Outline> bookmarks;
  StructureTree structure;
  std::vector<ElementId> open{0};
  std::map<std::string, HPDF_Destination> destinations;

  ~State() {
    if (document != nullptr) HPDF_Free(document);
  }

  void load(std::size_t index, const std::filesystem::path& file) {
    try {
      const char* name = HPDF_LoadTTFontFromFile(document, file.c_str(), HPDF_TRUE);
      fonts[index] = HPDF_GetFont(document, name, "UTF-8");
      definitions[index] = HPDF_GetFontDef(document, name);
    } catch (const std::runtime_error& error) {
      throw std::runtime_error(
          "font '" + file.string() + "' cannot be used: " + error.what() +
          "; install the packages fonts-lato and fonts-dejavu-extra or name another TrueType font");
    }
  }

  // Advance in thousandths of the type size; kNoGlyph when the face lacks the character. Cached, because the library
  // searches the font's segments from the first one for every character.
  int advance(char32_t code, std::size_t index) {
    if (code > kLastCode) return kNoGlyph;
    auto& known = advances[index];
    if (known.empty()) known.assign(kLastCode + 1, kUnknown);
    int& width = known[code];
    if (width != kUnknown) return width;
    const auto unicode = static_cast<HPDF_UINT16>(code);
    const bool present = HPDF_TTFontDef_GetGlyphid(definitions[index], unicode) != 0;
    width = present ? HPDF_TTFontDef_GetCharWidth(definitions[index], unicode) : kNoGlyph;
    return width;
  }

  // The character as it can be set, and the font that has it.
  struct Glyph {
    char32_t code;
    std::size_t font;
  };
  Glyph glyph(char32_t code, Face face) {
    if (code < 0x20 || code == 0x7F) code = U' ';
    const auto index = static_cast<std::size_t>(face);
    for (const char32_t candidate : {code, kReplacementCharacter}) {
      if (advance(candidate, index) != kNoGlyph) return {candidate, index};
      if (advance(candidate, kSigns) != kNoGlyph) return {candidate, kSigns};
    }
    return {U'?', index};
  }

  void write(const PageState& page, const std::string& operators) const {
    HPDF_Stream_WriteStr(static_cast<HPDF_PageAttr>(page.handle->attr)->stream, operators.c_str());
  }

  // The page with what is drawn next marked as the open element's (ISO 32000-2:2020, 14.6), or as an artifact.
  PageState& marked_page(std::size_t index) {
    PageState& page = pages[index];
    const Tag tag = structure.elements()[open.back()].tag;
    const ElementId owner = holds_marks(tag) ? open.back() : 0;
    if (page.marked == owner) return page;
    end_marks(page);
    if (owner == 0) {
      write(page, "/Artifact BMC\n");
    } else {
      write(page, "/" + std::string(structure_type(tag)) + " <</MCID " + std::to_string(structure.mark(owner, index)) +
                      ">> BDC\n");
    }
    page.marked = owner;
    return page;
  }

  void end_marks(PageState& page) const {
    if (page.marked) write(page, "EMC\n");
    page.marked.reset();
  }

  void set_fill(PageState& page, const Colour& colour) {
    if (page.fill == colour) return;
    HPDF_Page_SetRGBFill(page.handle, colour.red, colour.green, colour.blue);
    page.fill = colour;
  }

  void set_stroke(PageState& page, const Stroke& stroke) {
    if (page.stroke != stroke.colour) {
      HPDF_Page_SetRGBStroke(page.handle, stroke.colour.red, stroke.colour.green, stroke.colour.blue);
      page.stroke = stroke.colour;
    }
    if (page.line_width != stroke.width) {
      HPDF_Page_SetLineWidth(page.handle, real(stroke.width));
      page.line_width = stroke.width;
    }
    if (page.dash_on == stroke.dash_on && page.dash_off == stroke.dash_off) return;
    const std::array<HPDF_UINT16, 2> dash{static_cast<HPDF_UINT16>(stroke.dash_on),
                                          static_cast<HPDF_UINT16>(stroke.dash_off)};
    HPDF_Page_SetDash(page.handle, dash.data(), stroke.dash_on > 0 ? 2 : 0, 0);
    page.dash_on = stroke.dash_on;
    page.dash_off = stroke.dash_off;
  }
};

PdfDocument::PdfDocument(const DossierFonts& fonts, PageLabels elsewhere) : state_(std::make_unique<State>()) {
  state_->elsewhere = std::move(elsewhere);
  state_->document = HPDF_New(throw_library_error, nullptr);
  if (state_->document == nullptr) throw std::runtime_error("the PDF library cannot start; free some memory");
  HPDF_SetCompressionMode(state_->document, HPDF_COMP_ALL);
  HPDF_SetPagesConfiguration(state_->document, kPagesPerNode);
  HPDF_UseUTFEncodings(state_->document);
  HPDF_SetCurrentEncoder(state_->document, "UTF-8");
  HPDF_SetPageMode(state_->document, HPDF_PAGE_MODE_USE_OUTLINE);
  std::size_t index = 0;
  for (const std::filesystem::path& file : {fonts.regular, fonts.bold, fonts.italic, fonts.signs}) {
    state_->load(index++, file);
  }
}

PdfDocument::~PdfDocument() = default;

std::size_t PdfDocument::add_page() {
  PageState page;
  page.handle = HPDF_AddPage(state_->document);
  HPDF_Page_SetWidth(page.handle, real(grid::kPageWidth));
  HPDF_Page_SetHeight(page.handle, real(grid::kPageHeight));
  state_->pages.push_back(page);
  return state_->pages.size() - 1;
}

std::size_t PdfDocument::page_count() const {
  return state_->pages.size();
}

std::string PdfDocument::printable(std::string_view text, Face face) const {
  std::string result;
  result.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) append_utf8(result, state_->glyph(next_code_point(text, at), face).code);
  return result;
}

double PdfDocument::text_width(std::string_view text, Face face, double size) const {
  long units = 0;
  for (std::size_t at = 0; at < text.size();) {
    const State::Glyph glyph = state_->glyph(next_code_point(text, at), face);
    units += state_->advance(glyph.code, glyph.font);
  }
  return static_cast<double>(units) * size / 1000.0;
}

void PdfDocument::text(std::size_t page, Vec2 at, std::string_view text, const TextStyle& style, double angle_rad) {
  if (text.empty()) return;
  text = cut(text, kLongestShown_bytes);
  PageState& state = state_->marked_page(page);
  state_->set_fill(state, style.colour);
  HPDF_Page_BeginText(state.handle);
  const double cosine = std::cos(angle_rad);
  const double sine = std::sin(angle_rad);
  HPDF_Page_SetTextMatrix(state.handle, real(cosine), real(sine), real(-sine), real(cosine), real(at.x), real(at.y));
  std::string piece;  // of one font
  std::size_t font = static_cast<std::size_t>(style.face);
  const auto show = [&] {
    if (piece.empty()) return;
    HPDF_Page_SetFontAndSize(state.handle, state_->fonts[font], real(style.size));
    HPDF_Page_ShowText(state.handle, piece.c_str());
    piece.clear();
  };
  for (std::size_t i = 0; i < text.size();) {
    const State::Glyph glyph = state_->glyph(next_code_point(text, i), style.face);
    if (glyph.font != font) show();
    font = glyph.font;
    append_utf8(piece, glyph.code);
  }
  show();
  HPDF_Page_EndText(state.handle);
}

void PdfDocument::segments(std::size_t page, const std::vector<Segment>& segments, const Stroke& stroke) {
  if (segments.empty()) return;
  PageState& state = state_->marked_page(page);
  state_->set_stroke(state, stroke);
  for (const auto& [from, to] : segments) {
    HPDF_Page_MoveTo(state.handle, real(from.x), real(from.y));
    HPDF_Page_LineTo(state.handle, real(to.x), real(to.y));
  }
  HPDF_Page_Stroke(state.handle);
}

void PdfDocument::polyline(std::size_t page, const std::vector<Vec2>& points, const Stroke& stroke) {
  if (points.size() < 2) return;
  PageState& state = state_->marked_page(page);
  state_->set_stroke(state, stroke);
  HPDF_Page_MoveTo(state.handle, real(points.front().x), real(points.front().y));
  for (std::size_t i = 1; i < points.size(); ++i) HPDF_Page_LineTo(state.handle, real(points[i].x), real(points[i].y));
  HPDF_Page_Stroke(state.handle);
}

void PdfDocument::polygon(std::size_t page, const Polygon& outline, const std::optional<Colour>& fill,
                          const std::optional<Stroke>& stroke) {
  if (outline.size() < 2 || (!fill && !stroke)) return;
  PageState& state = state_->marked_page(page);
  if (fill) state_->set_fill(state, *fill);
  if (stroke) state_->set_stroke(state, *stroke);
  HPDF_Page_MoveTo(state.handle, real(outline.front().x), real(outline.front().y));
  for (std::size_t i = 1; i < outline.size(); ++i)
    HPDF_Page_LineTo(state.handle, real(outline[i].x), real(outline[i].y));
  if (fill && stroke) {
    HPDF_Page_ClosePathFillStroke(state.handle);
  } else if (stroke) {
    HPDF_Page_ClosePathStroke(state.handle);
  } else {
    HPDF_Page_Fill(state.handle);
  }
}

void PdfDocument::rectangle(std::size_t page, const Rect& rect, const std::optional<Colour>& fill,
                            const std::optional<Stroke>& stroke) {
  polygon(page, {{rect.left, rect.bottom}, {rect.right, rect.bottom}, {rect.right, rect.top}, {rect.left, rect.top}},
          fill, stroke);
}

void PdfDocument::squares(std::size_t page, const std::vector<Rect>& rects, const Colour& fill) {
  if (rects.empty()) return;
  PageState& state = state_->marked_page(page);
  state_->set_fill(state, fill);
  for (const Rect& rect : rects)
    HPDF_Page_Rectangle(state.handle, real(rect.left), real(rect.bottom), real(rect.width()), real(rect.height()));
  HPDF_Page_Fill(state.handle);
}

void PdfDocument::anchor(const std::string& name, std::size_t page, double top) {
  if (state_->anchors.contains(name)) return;
  const HPDF_Destination destination = HPDF_Page_CreateDestination(state_->pages[page].handle);
  HPDF_Destination_SetFitH(destination, real(top));
  state_->anchors.emplace(name, Anchor{page, destination});
}

std::optional<std::size_t> PdfDocument::anchor_page(const std::string& name) const {
  const auto found = state_->anchors.find(name);
  if (found == state_->anchors.end()) return std::nullopt;
  return found->second.page;
}

void PdfDocument::named_destination(const std::string& name, std::size_t page, double top) {
  const std::string shown(cut(name, kLongestTitle_bytes));
  if (state_->destinations.contains(shown)) return;
  const HPDF_Destination destination = HPDF_Page_CreateDestination(state_->pages[page].handle);
  HPDF_Destination_SetFitH(destination, real(top));
  state_->destinations.emplace(shown, destination);
}

ElementId PdfDocument::add_element(Tag tag, std::string_view alternate) {
  return state_->structure.add(tag, state_->open.back(), printable(cut(alternate, kLongestShown_bytes), Face::regular));
}

void PdfDocument::open_element(ElementId element) {
  state_->open.push_back(element);
}

ElementId PdfDocument::opened_element() const {
  return state_->open.back();
}

void PdfDocument::close_element() {
  if (state_->open.size() > 1) state_->open.pop_back();
}

ElementId PdfDocument::continued_element(Tag tag) {
  const ElementId last = state_->structure.last_of(tag, state_->open.back());
  return last != 0 ? last : add_element(tag);
}

const StructureTree& PdfDocument::structure() const {
  return state_->structure;
}

void PdfDocument::link(std::size_t page, const Rect& area, const std::string& anchor_name) {
  state_->links.push_back({page, area, anchor_name, state_->open.back()});
}

std::size_t PdfDocument::bookmark(std::optional<std::size_t> parent, const std::string& title, std::size_t page,
                                  double top) {
  const HPDF_Encoder encoder = HPDF_GetEncoder(state_->document, "UTF-8");
  const HPDF_Outline above = parent ? state_->bookmarks[*parent] : nullptr;
  const HPDF_Outline outline =
      HPDF_CreateOutline(state_->document, above, std::string(cut(title, kLongestTitle_bytes)).c_str(), encoder);
  HPDF_Outline_SetOpened(outline, HPDF_FALSE);
  const HPDF_Destination destination = HPDF_Page_CreateDestination(state_->pages[page].handle);
  HPDF_Destination_SetFitH(destination, real(top));
  HPDF_Outline_SetDestination(outline, destination);
  state_->bookmarks.push_back(outline);
  return state_->bookmarks.size() - 1;
}

void PdfDocument::page_labels(std::size_t page, bool roman_figures, const std::string& prefix) {
  HPDF_AddPageLabel(state_->document, static_cast<HPDF_UINT>(page),
                    roman_figures ? HPDF_PAGE_NUM_STYLE_LOWER_ROMAN : HPDF_PAGE_NUM_STYLE_DECIMAL, 1,
                    prefix.empty() ? nullptr : prefix.c_str());
  state_->label_ranges.push_back({page, roman_figures, prefix});
}

std::pair<std::string, std::string> PdfDocument::page_label(std::size_t page) const {
  LabelRange range{0, false, {}};
  std::size_t end = page_count();
  for (const LabelRange& next : state_->label_ranges) {
    if (next.first_page > page) {
      end = next.first_page;
      break;
    }
    range = next;
  }
  const auto figure = [&range](std::size_t number) {
    return range.prefix + (range.roman ? roman(number) : std::to_string(number));
  };
  return {figure(page - range.first_page + 1), figure(end - range.first_page)};
}

void PdfDocument::page_reference(std::size_t page, Vec2 place, const std::string& anchor_name, const TextStyle& style,
                                 LabelEnd end) {
  state_->references.push_back({page, place, anchor_name, style, end, state_->open.back()});
}

PageLabels PdfDocument::labels_of_anchors() const {
  PageLabels labels;
  for (const auto& [name, anchor] : state_->anchors) labels.emplace(name, page_label(anchor.page).first);
  return labels;
}

void PdfDocument::information(const std::string& title, const std::string& subject, const std::string& time_utc) {
  HPDF_SetInfoAttr(state_->document, HPDF_INFO_TITLE,
                   printable(cut(title, kLongestTitle_bytes), Face::regular).c_str());
  HPDF_SetInfoAttr(state_->document, HPDF_INFO_SUBJECT,
                   printable(cut(subject, kLongestTitle_bytes), Face::regular).c_str());
  HPDF_SetInfoAttr(state_->document, HPDF_INFO_CREATOR, "panel-dossier");
  HPDF_Date date{};
  date.ind = 'Z';
  if (std::sscanf(time_utc.c_str(), "%d-%d-%dT%d:%d:%d", &date.year, &date.month, &date.day, &date.hour, &date.minutes,
                  &date.seconds) != 6)
    throw std::runtime_error("build time '" + time_utc + "' is not an ISO 8601 time such as 2026-11-25T02:00:00Z");
  HPDF_SetInfoDateAttr(state_->document, HPDF_INFO_CREATION_DATE, date);
  HPDF_SetInfoDateAttr(state_->document, HPDF_INFO_MOD_DATE, date);
}

void PdfDocument::save(const std::filesystem::path& file) {
  for (const PendingReference& reference : state_->references) {
    const auto target = anchor_page(reference.anchor);
    const auto beside = state_->elsewhere.find(reference.anchor);
    const std::string label = target                              ? page_label(*target).first
                              : beside != state_->elsewhere.end() ? beside->second
                                                                  : "–";
    const bool is_left = reference.end == LabelEnd::left;
    const double width = is_left ? 0.0 : text_width(label, reference.style.face, reference.style.size);
    const Tagged tagged(*this, reference.element);
    text(reference.page, {reference.place.x - width, reference.place.y}, label, reference.style);
  }
  state_->references.clear();
  std::vector<HPDF_Annotation> annotations;
  for (const PendingLink& link : state_->links) {
    const auto found = state_->anchors.find(link.anchor);
    if (found == state_->anchors.end()) continue;
    const HPDF_Rect area{real(link.area.left), real(link.area.bottom), real(link.area.right), real(link.area.top)};
    const HPDF_Annotation annotation =
        HPDF_Page_CreateLinkAnnot(state_->pages[link.page].handle, area, found->second.destination);
    HPDF_LinkAnnot_SetBorderStyle(annotation, 0, 0, 0);
    HPDF_Dict_AddNumber(annotation, "F", kPrinted);
    const std::string leads_to = "page " + page_label(found->second.page).first;
    HPDF_Dict_Add(annotation, "Contents",
                  HPDF_String_New(annotation->mmgr, leads_to.c_str(), HPDF_GetEncoder(state_->document, "UTF-8")));
    StructureTree& tree = state_->structure;
    const bool is_link = tree.elements()[link.element].tag == Tag::link;
    tree.annotate(is_link ? link.element : tree.add(Tag::link, link.element), link.page);
    annotations.push_back(annotation);
  }
  state_->links.clear();
  std::vector<HPDF_Page> pages;
  for (PageState& page : state_->pages) {
    state_->end_marks(page);
    pages.push_back(page.handle);
  }
  try {
    write_structure(state_->document, state_->structure, pages, annotations);
    write_destinations(state_->document, state_->destinations);
    // Some calls only note what they refuse, such as one entry more in a full array.
    if (const HPDF_STATUS noted = HPDF_GetError(state_->document); noted != HPDF_OK) {
      throw_library_error(noted, HPDF_GetErrorDetail(state_->document), nullptr);
    }
    HPDF_SaveToFile(state_->document, file.c_str());
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("'" + file.string() + "' cannot be written: " + error.what());
  }
  require_whole_pdf(file);
}

}  // namespace panel_dossier
