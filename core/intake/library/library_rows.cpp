#include "core/intake/library/library_rows.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/tables/cell_reader.h"
#include "core/intake/tables/unit_symbol.h"

namespace panel_dossier {

namespace {

constexpr const char* kLibraryForm = "see schemas/library.md for the columns";

struct TextRule {
  std::string_view title;
  std::string LibraryProduct::*member;
};

constexpr std::array kTextRules{
    TextRule{"product", &LibraryProduct::product},
    TextRule{"name pattern", &LibraryProduct::pattern},
    TextRule{"classification", &LibraryProduct::classification},
    TextRule{"article number", &LibraryProduct::article_number},
};

constexpr std::string_view kDeclarationProperty = "Panel_EnvironmentalDeclaration.DocumentId";
constexpr std::string_view kProductProperty = "Pset_ManufacturerTypeInformation.ModelLabel";

/// What a panel's reading needs while the export is read, before any library is asked.
constexpr std::array<std::string_view, 2> kOfExportAlone{"Panel_Construction.FirstLayerFace", "Panel_Identity.Mark"};

/// What a column of a table stands for.
struct ColumnUse {
  std::string LibraryProduct::*text = nullptr;
  const PropertyRow* property = nullptr;
  const Measure* measure = nullptr;
  double factor = 1.0;
};

class ProductTableReader {
 public:
  ProductTableReader(const LibraryTable& source, const std::vector<PropertyRow>& rows, const MaterialKinds& kinds,
                     std::string_view today, Reporter& report)
      : source_(source),
        table_(source.table),
        rows_(rows),
        kinds_(kinds),
        today_(today),
        report_(report),
        cells_(source.table, report) {}

  std::vector<LibraryProduct> read() {
    if (!read_head()) return {};
    std::vector<LibraryProduct> products;
    for (const TableRow& row : table_.rows) {
      if (auto product = read_row(row)) products.push_back(std::move(*product));
    }
    return products;
  }

 private:
  const LibraryTable& source_;
  const InputTable& table_;
  const std::vector<PropertyRow>& rows_;
  const MaterialKinds& kinds_;
  std::string_view today_;
  Reporter& report_;
  CellReader cells_;
  std::vector<ColumnUse> uses_;
  std::size_t product_column_ = 0;
  std::size_t source_column_ = 0;
  std::size_t day_column_ = 0;

  bool read_head() {
    for (const auto& [title, place] : {std::pair("product", &product_column_), std::pair("source", &source_column_),
                                       std::pair("day", &day_column_)}) {
      const auto found = table_.column(title);
      if (found) *place = *found;
      if (!found)
        report_.file_error(table_.head_row, 0, std::string("the table has no column '") + title + "'", kLibraryForm);
    }
    std::map<std::string, std::string> titles;  // property -> title
    for (const TableColumn& column : table_.columns) {
      uses_.push_back(use_of(column));
      const PropertyRow* property = uses_.back().property;
      if (property == nullptr) continue;
      const std::string name = property->set + "." + property->property;
      const auto [first, is_new] = titles.emplace(name, column.title);
      if (!is_new) {
        at_head(Severity::error, column, "stands for " + name + ", as '" + first->second + "' does",
                "keep one of them");
      }
    }
    return !report_.has_errors();
  }

  void at_head(Severity severity, const TableColumn& column, const std::string& what, const std::string& advice) {
    report_.add(
        {severity, {}, table_.head_row, column.number, {}, {}, "column '" + column.title + "' " + what, advice});
  }

  ColumnUse use_of(const TableColumn& column) {
    const std::string title = lower_case(column.title);
    ColumnUse use;
    for (const TextRule& rule : kTextRules) {
      if (rule.title == title) use.text = rule.member;
    }
    const bool is_material = entity_of(source_.kind) == "material";
    if (title == (is_material ? "material name" : "name")) use.text = &LibraryProduct::name;
    const bool is_classified = is_material || source_.kind == LibraryTableKind::panels;
    if (!is_classified && title == "classification") use.text = nullptr;
    if (is_material && title == "category") use.text = &LibraryProduct::category;
    if (use.text != nullptr || title == "source" || title == "day") return use;
    use.property = property_named(is_material && title == "declaration" ? kDeclarationProperty : column.title);
    if (use.property == nullptr) {
      at_head(Severity::warning, column,
              "is no property that is known of a " + std::string(entity_of(source_.kind)) + ", and is not read",
              kLibraryForm);
      return use;
    }
    use.measure = find_measure(use.property->measure);
    read_unit(column, use);
    return use;
  }

  /// By its full name or its title; null when it is none of the table's entity.
  const PropertyRow* property_named(std::string_view name) const {
    const std::string wanted = lower_case(name);
    for (const PropertyRow& row : rows_) {
      const auto entities = entities_with(row);
      const bool is_of_kind = std::find(entities.begin(), entities.end(), entity_of(source_.kind)) != entities.end();
      // Quantities are those of one piece of the export.
      if (!is_of_kind || find_measure(row.measure) == nullptr || row.measure.starts_with("IfcQuantity")) continue;
      const std::string full_name = row.set + "." + row.property;
      if (std::find(kOfExportAlone.begin(), kOfExportAlone.end(), full_name) != kOfExportAlone.end()) continue;
      if (lower_case(row.title) == wanted || lower_case(full_name) == wanted) return &row;
    }
    return nullptr;
  }

  void read_unit(const TableColumn& column, ColumnUse& use) {
    const bool is_number = use.measure->kind == MeasureKind::quantity || use.measure->kind == MeasureKind::pure_number;
    const std::string wanted = is_number ? use.property->unit : std::string();
    const auto factor = unit_conversion(column.unit, wanted);
    if (factor && (is_number || column.unit.empty())) {
      use.factor = *factor;
    } else if (wanted.empty()) {
      at_head(Severity::error, column, "has the unit '" + column.unit + "', but its values have none",
              is_number ? "write a plain number, or [%]" : "leave the unit out");
    } else if (column.unit.empty()) {
      at_head(Severity::error, column, "names no unit", "write it in brackets: " + column.title + " [" + wanted + "]");
    } else {
      at_head(Severity::error, column, "has the unit '" + column.unit + "', which is none of " + wanted,
              "write " + column.title + " [" + wanted + "]");
    }
  }

  /// A form lists things of which nothing is known yet: such a row says nothing, and wants no source.
  bool says_nothing(const TableRow& row) const {
    for (std::size_t i = 0; i < uses_.size(); ++i) {
      if (uses_[i].property != nullptr && !cells_.text(row, i).empty()) return false;
      if (uses_[i].text == &LibraryProduct::category && !cells_.text(row, i).empty()) return false;
    }
    return cells_.text(row, source_column_).empty() && cells_.text(row, day_column_).empty();
  }

  std::optional<LibraryProduct> read_row(const TableRow& row) {
    if (says_nothing(row)) return std::nullopt;
    LibraryProduct product;
    product.kind = source_.kind;
    product.in_library = source_.in_library;
    product.file = table_.file;
    product.row = row.number;
    product.place = place_of(table_, row);
    const std::string source = source_of(row);
    for (std::size_t i = 0; i < uses_.size(); ++i) {
      if (uses_[i].text != nullptr) product.*uses_[i].text = cells_.text(row, i);
      if (uses_[i].text == &LibraryProduct::category) product.category = kind_of(row, i);
      if (uses_[i].property == nullptr) continue;
      if (auto value = value_of(row, i, source)) product.values.push_back(std::move(*value));
    }
    if (product.product.empty()) {
      cells_.error(row, product_column_, "is empty", "name the product of the row");
      return std::nullopt;
    }
    const std::string& pattern = product.pattern;
    if (!pattern.empty() && std::none_of(pattern.begin(), pattern.end(),
                                         [](unsigned char c) { return std::isalnum(c) != 0 || c >= 0x80; })) {
      cells_.error(row, *table_.column("name pattern"), "is the pattern of any name",
                   "write a part of the names into it");
      return std::nullopt;
    }
    if (const PropertyRow* known = property_named(kProductProperty)) {
      Property property{product.product, {}, table_origin(table_, row, std::string(kProductProperty), source)};
      product.values.push_back({known, std::move(property)});
    }
    if (product.name.empty() && pattern.empty() && product.classification.empty() && product.article_number.empty()) {
      product.name = product.product;
    }
    return product;
  }

  /// By its name, whichever of its terms the row has: the usual values of a kind are looked up by it.
  std::string kind_of(const TableRow& row, std::size_t column) {
    const std::string& term = cells_.text(row, column);
    if (term.empty()) return {};
    if (const MaterialKind* kind = kinds_.kind_of(lower_case(term))) return kind->name;
    cells_.error(row, column, "is no kind of material", "write one of the words of schemas/material_kinds.csv");
    return {};
  }

  /// `product data sheet 12, 2026-03-01`
  std::string source_of(const TableRow& row) {
    const std::string& source = cells_.text(row, source_column_);
    if (source.empty()) cells_.error(row, source_column_, "is empty", "name the document the row is taken from");
    const auto day = cells_.day(row, day_column_);
    if (cells_.text(row, day_column_).empty()) {
      cells_.error(row, day_column_, "is empty", "write the day of the source, as 2026-03-01");
    }
    if (day && *day > today_) cells_.error(row, day_column_, "lies in the future", "write the day of the source");
    return source + ", " + day.value_or("");
  }

  std::optional<ProductValue> value_of(const TableRow& row, std::size_t column, const std::string& source) {
    const ColumnUse& use = uses_[column];
    ProductValue value;
    value.known = use.property;
    value.property.origin = table_origin(table_, row, value.full_name(), source);
    bool is_read = false;
    switch (use.measure->kind) {
      case MeasureKind::quantity:
      case MeasureKind::pure_number:
      case MeasureKind::duration: is_read = read_number(row, column, value); break;
      case MeasureKind::logical:
        if (const auto logical = cells_.logical(row, column)) {
          value.property.value = *logical;
          is_read = true;
        }
        break;
      case MeasureKind::text: is_read = read_text(row, column, value); break;
    }
    return is_read ? std::optional(std::move(value)) : std::nullopt;
  }

  bool read_number(const TableRow& row, std::size_t column, ProductValue& value) {
    const ColumnUse& use = uses_[column];
    const auto number = cells_.number(row, column);
    if (!number) return false;
    const double in_si = *number * use.factor;
    const bool is_whole = use.property->measure == "IfcInteger" || use.property->measure == "IfcCountMeasure";
    if (is_whole && in_si != std::floor(in_si)) {
      cells_.error(row, column, "is no whole number", "write a whole number");
      return false;
    }
    if (use.property->range && !use.property->range->holds(in_si)) {
      cells_.error(row, column, "cannot be: it goes from " + to_string(*use.property->range, use.property->unit),
                   "correct the value or the unit of the column");
      return false;
    }
    value.property.value = in_si;
    value.property.unit = use.measure->symbol;
    return true;
  }

  bool read_text(const TableRow& row, std::size_t column, ProductValue& value) {
    const PropertyRow& known = *uses_[column].property;
    const std::string& text = cells_.text(row, column);
    if (text.empty()) return false;
    if (known.measure == "IfcDate") {
      const auto day = cells_.day(row, column);
      if (day) value.property.value = *day;
      return day.has_value();
    }
    if (!known.words.empty() && std::find(known.words.begin(), known.words.end(), text) == known.words.end()) {
      cells_.error(row, column, "is none of " + joined(known.words), "write one of them");
      return false;
    }
    value.property.value = text;
    return true;
  }
};

/// Two rows of one library that would always claim the same things.
class DoubleRows {
 public:
  explicit DoubleRows(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  void look_at(const LibraryProduct& product) {
    look_at("product", product.product, product);
    look_at("article number", product.article_number, product);
    look_at("name", product.name, product);
    look_at("name pattern", product.pattern, product);
  }

 private:
  using Key = std::tuple<std::size_t, std::string, std::string, std::string>;

  Diagnostics& diagnostics_;
  std::map<Key, const LibraryProduct*> first_;

  void look_at(const std::string& rule, const std::string& text, const LibraryProduct& product) {
    if (text.empty()) return;
    // A product may be a fixing and a lifting point; these are never the same things.
    const bool is_material = entity_of(product.kind) == "material";
    const std::string pool(is_material ? "material" : to_string(product.kind));
    const auto [first, is_new] = first_.emplace(Key{product.in_library, pool, rule, lower_case(text)}, &product);
    if (is_new) return;
    diagnostics_.push_back({Severity::error,
                            product.file,
                            product.row,
                            0,
                            {},
                            {},
                            "the " + rule + " '" + text + "' has a row already: " + first->second->place,
                            "keep one of the rows"});
  }
};

}  // namespace

std::string_view entity_of(LibraryTableKind kind) {
  switch (kind) {
    case LibraryTableKind::materials:
    case LibraryTableKind::boards: return "material";
    case LibraryTableKind::fixings:
    case LibraryTableKind::lifting: return "part";
    case LibraryTableKind::windows: return "filling";
    case LibraryTableKind::panels: return "panel";
    case LibraryTableKind::evidence:
    case LibraryTableKind::people: break;
  }
  return "";
}

std::vector<LibraryProduct> read_library_products(const LibraryFiles& files, const std::vector<PropertyRow>& rows,
                                                  const MaterialKinds& kinds, std::string_view today,
                                                  Diagnostics& diagnostics) {
  std::vector<LibraryProduct> products;
  for (const LibraryTable& table : files.tables) {
    if (entity_of(table.kind).empty()) continue;
    Reporter report(table.table.file);
    std::vector<LibraryProduct> read = ProductTableReader(table, rows, kinds, today, report).read();
    std::move(read.begin(), read.end(), std::back_inserter(products));
    Diagnostics found = report.take();
    std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
  }
  DoubleRows double_rows(diagnostics);
  for (const LibraryProduct& product : products) double_rows.look_at(product);
  return products;
}

}  // namespace panel_dossier
