#include "core/pipeline/guidance/guidance_csv.h"

#include "core/api/support/csv_reader.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"

namespace panel_dossier {

void read_guidance_table(std::string_view bytes, const std::string& file, const std::vector<std::string>& columns,
                         const std::function<void(const std::vector<std::string>& cells, std::size_t line)>& take) {
  if (const auto encoding = encoding_fault(bytes)) throw GuidanceFault(file, 1, encoding->message);
  CsvReader reader(bytes);
  CsvRecord record;
  bool is_head = true;
  try {
    while (reader.next(record)) {
      std::vector<std::string> cells;
      cells.reserve(record.fields.size());
      for (const std::string& field : record.fields) cells.emplace_back(trimmed(field));
      if (is_head && cells != columns) throw std::runtime_error("the columns are not " + joined(columns));
      if (cells.size() != columns.size()) {
        throw std::runtime_error("the row has " + std::to_string(cells.size()) + " fields, the head " +
                                 std::to_string(columns.size()) + "; quote a text that holds a comma");
      }
      if (!is_head) take(cells, record.line);
      is_head = false;
    }
  } catch (const CsvFault& fault) {
    throw GuidanceFault(file, fault.line(), fault.what());
  } catch (const std::runtime_error& error) {
    throw GuidanceFault(file, record.line, error.what());
  }
  if (is_head) throw GuidanceFault(file, 1, "the table is empty");
}

}  // namespace panel_dossier
