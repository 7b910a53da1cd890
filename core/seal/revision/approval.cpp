#include "core/seal/revision/approval.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <stdexcept>
#include <utility>
#include <vector>

#include "core/intake/document/sha256.h"
#include "core/seal/pdf_date.h"
#include "core/seal/revision/added_field.h"
#include "core/seal/signature_field.h"

namespace panel_dossier {

namespace {

using Object = QPDFObjectHandle;

// The foot of the first page, in points: boxes side by side, rows going up.
constexpr int kLeft = 57;
constexpr int kBottom = 62;
constexpr int kWidth = 154;
constexpr int kHeight = 54;
constexpr int kGap = 9;
constexpr int kColumns = 3;

void require_role(const std::string& role) {
  constexpr std::size_t kLongest = 40;
  const bool sound = !role.empty() && role.size() <= kLongest && role.front() != ' ' && role.back() != ' ' &&
                     std::all_of(role.begin(), role.end(), [](char character) {
                       return (character >= 'a' && character <= 'z') || (character >= 'A' && character <= 'Z') ||
                              (character >= '0' && character <= '9') || character == ' ' || character == '-';
                     });
  if (!sound) {
    throw std::runtime_error("the role '" + role + "' is not one to forty letters, digits, spaces and hyphens");
  }
}

/// `[57 62 211 116]` for the approval of that place, from 0.
std::string rectangle(int place) {
  const int left = kLeft + (place % kColumns) * (kWidth + kGap);
  const int bottom = kBottom + (place / kColumns) * (kHeight + kGap);
  return "[" + std::to_string(left) + " " + std::to_string(bottom) + " " + std::to_string(left + kWidth) + " " +
         std::to_string(bottom + kHeight) + "]";
}

/// A font of the page, numbered by UTF-16 code unit (finish.cpp); else one of the standard fonts. The page's regular
/// face comes first: a file holds the glyphs that it uses, and of that face it uses most.
struct PageFont {
  std::string object;  ///< reference or dictionary
  bool by_code_unit = false;
};

PageFont font_of(Object page) {
  Object fonts =
      page.getKey("/Resources").isDictionary() ? page.getKey("/Resources").getKey("/Font") : Object::newNull();
  PageFont found;
  if (fonts.isDictionary()) {
    for (const std::string& name : fonts.getKeys()) {
      Object font = fonts.getKey(name);
      if (!font.isIndirect() || !font.isDictionaryOfType("/Font", "/Type0") ||
          !font.getKey("/Encoding").isNameAndEquals("/Identity-H")) {
        continue;
      }
      const std::string face = font.getKey("/BaseFont").unparse();
      const bool regular = face.find("Bold") == std::string::npos && face.find("Italic") == std::string::npos;
      if (regular || found.object.empty()) found = {font.unparse(), true};
      if (regular) return found;
    }
  }
  if (!found.object.empty()) return found;
  return {"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>", false};
}

/// `text` as a string to show: two octets a code unit, or printable ASCII with `?` for the rest.
std::string shown(const std::string& text, const PageFont& font) {
  if (font.by_code_unit) {
    std::string digits = text_string(text);
    constexpr std::size_t kByteOrderMark = 4;
    digits.erase(1, kByteOrderMark);
    return digits;
  }
  std::string plain = "<";
  for (const char character : text) {
    const auto octet = static_cast<unsigned char>(character);
    if ((octet & 0xc0U) == 0x80U) continue;  // goes on with the character before
    std::array<char, 4> digits{};
    std::snprintf(digits.data(), digits.size(), "%02x", octet < 0x7fU && octet >= 0x20U ? octet : unsigned{'?'});
    plain += digits.data();
  }
  return plain + ">";
}

/// At most so many characters that they fit the box.
std::string shortened(const std::string& text) {
  constexpr std::size_t kMostCharacters = 36;
  std::size_t characters = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if ((static_cast<unsigned char>(text[i]) & 0xc0U) == 0x80U) continue;
    if (++characters > kMostCharacters) return text.substr(0, i) + "...";
  }
  return text;
}

std::string appearance(const Approval& approval, const PageFont& font) {
  const std::vector<std::string> lines{"Signed as " + approval.role, approval.signer, iso_from_pdf_date(approval.date),
                                       approval.reason};
  std::string content = "q 0.6 w 0.4 G 0.3 0.3 " + std::to_string(kWidth - 1) + " " + std::to_string(kHeight - 1) +
                        " re S Q\nBT /F1 8 Tf 6 42 Td 12 TL\n";
  for (const std::string& line : lines) content += shown(shortened(line), font) + " Tj T*\n";
  content += "ET\n";
  return "<< /Type /XObject /Subtype /Form /BBox [0 0 " + std::to_string(kWidth) + " " + std::to_string(kHeight) +
         "] /Resources << /Font << /F1 " + font.object + " >> >> /Length " + std::to_string(content.size()) +
         " >>\nstream\n" + content + "endstream";
}

std::string signature_text(const Approval& approval, std::size_t room) {
  return "<< /ByteRange " + std::string(kByteRangePlaceholder) + " /Contents <" + std::string(2 * room, '0') +
         "> /Filter /Adobe.PPKLite /M (" + approval.date + ") /Name " + text_string(approval.signer) + " /Reason " +
         text_string(approval.reason) + " /SubFilter /ETSI.CAdES.detached /Type /Sig >>";
}

constexpr std::string_view kFieldName = "Signature ";

std::string field_text(const Approval& approval, int number, const std::string& page, int signature, int appearance) {
  const std::string name = std::string(kFieldName) + std::to_string(number) + ", " + approval.role;
  return "<< /AP << /N " + reference(appearance) + " >> /F 132 /FT /Sig /P " + page + " /Rect " +
         rectangle(number - 2) + " /Subtype /Widget /T (" + name + ") /TU (" + name + ") /Type /Annot /V " +
         reference(signature) + " >>";
}

std::string text_at(Object dictionary, const char* key) {
  Object text = dictionary.getKey(key);
  return text.isString() ? text.getUTF8Value() : std::string();
}

}  // namespace

ObjectTexts approval_objects(QPDF& pdf, const RevisionEnd& before, const Approval& approval, std::size_t room,
                             int& signature) {
  require_role(approval.role);
  const int field = before.object_count;
  AddedField added = added_field(pdf, field);
  if (added.number - 1 > kMostApprovals) {
    throw std::runtime_error("the first page has no room for more than " + std::to_string(kMostApprovals) +
                             " further signatures");
  }
  signature = field + 1;
  const int drawing = field + 2;
  Object page = QPDFPageDocumentHelper(pdf).getAllPages().at(0).getObjectHandle();
  added.objects[field] = field_text(approval, added.number, added.page, signature, drawing);
  added.objects[signature] = signature_text(approval, room);
  added.objects[drawing] = appearance(approval, font_of(page));
  return std::move(added.objects);
}

Approval read_approval(QPDF& pdf) {
  Object fields = pdf.getRoot().getKey("/AcroForm").getKey("/Fields");
  const int number = fields.getArrayNItems();
  Object field = fields.getArrayItem(number - 1);
  Object signature = field.getKey("/V");
  const std::string name = text_at(field, "/T");
  const std::string head = std::string(kFieldName) + std::to_string(number) + ", ";
  if (name.rfind(head, 0) != 0 || !signature.isDictionary()) {
    throw std::runtime_error("'" + name + "' is no signature field as this program adds them");
  }
  return {name.substr(head.size()), text_at(signature, "/Reason"), text_at(signature, "/Name"),
          text_at(signature, "/M")};
}

std::string sign_again(std::string_view dossier, const Signer& signer, const std::string& role,
                       const std::string& reason, const std::string& time_utc) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", dossier.data(), dossier.size());
  const RevisionEnd before = revision_end(pdf, dossier);
  const Approval approval{role, reason, signer.subject(), pdf_date(time_utc)};
  int number = 0;
  const ObjectTexts objects = approval_objects(pdf, before, approval, signer.signature_bytes(), number);
  std::map<int, std::size_t> offsets;
  std::string bytes(dossier);
  bytes += increment_text(before, objects, &offsets);
  const SignaturePlace place = signature_place(objects.at(number), offsets.at(number));
  const std::string range = byte_range_text(place, bytes.size());
  bytes.replace(place.byte_range_begin, range.size(), range);
  Sha256 hasher;
  hasher.add(std::string_view(bytes).substr(0, place.contents_begin));
  hasher.add(std::string_view(bytes).substr(place.contents_end));
  const std::string digits = contents_text(place, signer.sign(hasher.finish()));
  bytes.replace(place.contents_begin + 1, digits.size(), digits);
  return bytes;
}

}  // namespace panel_dossier
