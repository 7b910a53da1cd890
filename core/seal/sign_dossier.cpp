// Fills the signature field of a finished dossier.
#include <qpdf/QPDF.hh>
#include <qpdf/QUtil.hh>
#include <stdexcept>

#include "core/seal/file_bytes.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signature_field.h"
#include "core/seal/signer.h"

namespace panel_dossier {

namespace {

/// Puts `text` over the placeholder between the offsets and fills up with spaces before its last character.
void fill(std::string& bytes, std::size_t begin, std::size_t end, std::string text) {
  if (text.size() > end - begin) throw std::runtime_error("'" + text + "' does not fit its placeholder");
  text.insert(text.size() - 1, end - begin - text.size(), ' ');
  bytes.replace(begin, text.size(), text);
}

void fill_signature(std::string& bytes, const SignaturePlace& place, const Signer& signer) {
  const std::string content = bytes.substr(0, place.contents_begin) + bytes.substr(place.contents_end);
  const std::string signature = QUtil::hex_encode(signer.sign(content));
  const std::size_t room = place.contents_end - place.contents_begin - 2;
  if (signature.size() > room) {
    throw std::runtime_error("the signature takes " + std::to_string(signature.size() / 2) +
                             " bytes and the file has " + std::to_string(room / 2) + " for it");
  }
  bytes.replace(place.contents_begin + 1, signature.size(), signature);
}

std::string signed_bytes(std::string bytes, const Signer& signer, const std::string& time_utc) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
  const SignaturePlace place = find_signature(pdf, bytes);
  fill(bytes, place.byte_range_begin, place.byte_range_end,
       "[0 " + std::to_string(place.contents_begin) + " " + std::to_string(place.contents_end) + " " +
           std::to_string(bytes.size() - place.contents_end) + "]");
  fill(bytes, place.date_begin, place.date_end, "(" + pdf_date(time_utc) + ")");
  fill_signature(bytes, place, signer);
  return bytes;
}

}  // namespace

void sign_dossier(const std::filesystem::path& file, const Signer& signer, const std::string& time_utc) {
  try {
    replace_file(file, signed_bytes(read_bytes(file), signer, time_utc));
  } catch (const std::exception& error) {
    throw std::runtime_error("cannot sign '" + file.string() + "': " + error.what());
  }
}

}  // namespace panel_dossier
