#include "core/api/support/csv_reader.h"

namespace panel_dossier {

CsvReader::CsvReader(std::string_view text, char separator) : text_(text), separator_(separator) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text_.starts_with(kByteOrderMark)) at_ = kByteOrderMark.size();
}

bool CsvReader::next(CsvRecord& record) {
  while (at_ < text_.size() && skipped_line()) {
  }
  if (at_ >= text_.size()) return false;
  record.line = line_;
  record.fields.clear();
  record.fields.push_back(field());
  while (at_ < text_.size() && text_[at_] == separator_) {
    ++at_;
    record.fields.push_back(field());
  }
  if (!at_line_end()) throw CsvFault(line_, "text after a closing quote");
  end_line();
  return true;
}

bool CsvReader::at_line_end() const {
  return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r';
}

void CsvReader::end_line() {
  if (at_ >= text_.size()) return;
  at_ += text_.substr(at_, 2) == "\r\n" ? 2 : 1;
  ++line_;
}

/// Passes over an empty line or comment.
bool CsvReader::skipped_line() {
  if (!at_line_end() && text_[at_] != '#') return false;
  while (!at_line_end()) ++at_;
  end_line();
  return true;
}

std::string CsvReader::field() {
  return at_ < text_.size() && text_[at_] == '"' ? quoted_field() : plain_field();
}

std::string CsvReader::plain_field() {
  const std::size_t start = at_;
  while (!at_line_end() && text_[at_] != separator_) {
    if (text_[at_] == '"') throw CsvFault(line_, "a quote inside a field; quote the whole field and double it");
    ++at_;
  }
  return std::string(text_.substr(start, at_ - start));
}

std::string CsvReader::quoted_field() {
  const std::size_t opened = line_;
  std::string field;
  for (++at_; at_ < text_.size(); ++at_) {
    const char c = text_[at_];
    if (c == '"') {
      if (text_.substr(at_, 2) != "\"\"") {
        ++at_;
        return field;
      }
      ++at_;
    }
    const bool ends_line = c == '\n' || (c == '\r' && text_.substr(at_, 2) != "\r\n");
    if (ends_line) ++line_;
    field += c;
  }
  throw CsvFault(opened, "a quoted field is not closed");
}

}  // namespace panel_dossier
