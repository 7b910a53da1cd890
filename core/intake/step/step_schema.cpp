#include "core/intake/step/step_schema.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <utility>

#include "core/intake/document/file_bytes.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

std::string_view table_name_of(Generation generation) {
  switch (generation) {
    case Generation::ifc2x3: return "IFC2X3";
    case Generation::ifc4: return "IFC4";
    case Generation::ifc4x3: return "IFC4X3_ADD2";
    case Generation::unknown: break;
  }
  throw std::logic_error("no tables of an unknown generation");
}

std::string upper_case_of(std::string_view text) {
  std::string upper(text);
  for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return upper;
}

constexpr std::size_t kMostColumns = 6;
using StepTableRow = std::array<std::string_view, kMostColumns>;

std::runtime_error table_fault(const std::filesystem::path& file, std::string_view what) {
  return std::runtime_error("the table '" + file.string() + "' " + std::string(what) + ": reinstall the program");
}

/// Splits off what stands before the comma.
std::string_view next_cell(std::string_view& line) {
  const std::size_t comma = line.find(',');
  const std::string_view cell = line.substr(0, comma);
  line = comma == std::string_view::npos ? std::string_view() : line.substr(comma + 1);
  return cell;
}

/// Calls `take` with the cells of each row of the schema.
template <typename Take>
void each_row(const std::filesystem::path& file, std::string_view text, std::string_view schema, std::size_t columns,
              Take take) {
  std::size_t rows = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    if (!line.starts_with(schema) || line.substr(schema.size(), 1) != ",") continue;
    if (static_cast<std::size_t>(std::count(line.begin(), line.end(), ',')) + 1 != columns) {
      throw table_fault(file, "has a row of another number of cells");
    }
    StepTableRow row{};
    for (std::size_t i = 0; i < columns; ++i) row[i] = next_cell(line);
    take(row);
    ++rows;
  }
  if (rows == 0) throw table_fault(file, "has no row of the schema");
}

struct Primitive {
  std::string_view name;
  StepKind kind;
};

constexpr std::array kPrimitives{
    Primitive{"STRING", StepKind::text},     Primitive{"REAL", StepKind::real},
    Primitive{"INTEGER", StepKind::integer}, Primitive{"NUMBER", StepKind::number},
    Primitive{"BOOLEAN", StepKind::boolean}, Primitive{"LOGICAL", StepKind::logical},
    Primitive{"BINARY", StepKind::binary},
};

/// `LIST [1:?] OF UNIQUE IfcX` -> levels of lists and what is inside them.
std::pair<std::uint8_t, std::string_view> without_lists(std::string_view type) {
  std::uint8_t levels = 0;
  for (bool is_list = true; is_list;) {
    is_list = false;
    for (const std::string_view list : {"SET "sv, "LIST "sv, "ARRAY "sv, "BAG "sv}) is_list |= type.starts_with(list);
    const std::size_t of = type.find(" OF ");
    if (!is_list || of == std::string_view::npos) break;
    type.remove_prefix(of + 4);
    if (type.starts_with("UNIQUE ")) type.remove_prefix(7);
    ++levels;
  }
  return {levels, type};
}

std::uint16_t as_count(std::string_view text) {
  std::uint16_t count = 0;
  std::from_chars(text.data(), text.data() + text.size(), count);
  return count;
}

}  // namespace

class StepSchema::Loader {
 public:
  Loader(StepSchema& schema, const std::filesystem::path& folder) : schema_(schema), folder_(folder) {}

  void load() {
    const std::string_view name = table_name_of(schema_.generation_);
    load_enumerations(name);
    load_entities(name);
    load_types(name);
    load_selects(name);
    index_names();
    load_attributes(name);
  }

 private:
  /// A defined type waits for what it stands for, which may stand further down.
  struct Unresolved {
    std::string_view name;
    std::string_view underlying;
  };

  StepSchema& schema_;
  const std::filesystem::path& folder_;
  std::unordered_map<std::string_view, std::uint16_t> entities_;
  std::unordered_map<std::string_view, std::uint16_t> enumerations_;
  std::unordered_map<std::string_view, std::string_view> defined_;
  std::unordered_set<std::string_view> selects_;
  std::vector<Unresolved> unresolved_;

  std::string_view read(const std::filesystem::path& file) {
    schema_.files_.push_back(read_file(file));
    return schema_.files_.back();
  }

  void load_enumerations(std::string_view name) {
    const std::filesystem::path file = folder_ / "enumerations.csv";
    each_row(file, read(file), name, 3, [&](const StepTableRow& row) {
      const auto [found, is_new] =
          enumerations_.try_emplace(row[1], static_cast<std::uint16_t>(schema_.enumerations_.size()));
      if (is_new) schema_.enumerations_.push_back({row[1], {}});
      schema_.enumerations_[found->second].values.insert(row[2]);
    });
  }

  void load_entities(std::string_view name) {
    const std::filesystem::path file = folder_ / "supertypes.csv";
    std::vector<std::string_view> supertypes;
    each_row(file, read(file), name, 5, [&](const StepTableRow& row) {
      entities_.emplace(row[1], static_cast<std::uint16_t>(schema_.entities_.size()));
      StepEntity entity;
      entity.name = row[1];
      entity.argument_count = as_count(row[4]);
      entity.is_abstract = row[2] == "yes";
      entity.is_read = is_read_type(row[1]);
      entity.is_listed = is_listed_type(row[1]);
      schema_.entities_.push_back(entity);
      supertypes.push_back(row[3]);
    });
    for (std::size_t i = 0; i < supertypes.size(); ++i) {
      const auto found = entities_.find(supertypes[i]);
      if (found != entities_.end()) schema_.entities_[i].supertype = found->second;
    }
    const auto root = entities_.find("IfcRoot");
    if (root == entities_.end()) throw table_fault(file, "has no IfcRoot");
    for (std::size_t i = 0; i < schema_.entities_.size(); ++i) {
      schema_.entities_[i].is_rooted = schema_.is_a(static_cast<std::uint16_t>(i), root->second);
    }
  }

  void load_types(std::string_view name) {
    const std::filesystem::path file = folder_ / "types.csv";
    each_row(file, read(file), name, 3, [&](const StepTableRow& row) {
      defined_.emplace(row[1], row[2]);
      unresolved_.push_back({row[1], row[2]});
    });
  }

  void load_selects(std::string_view name) {
    const std::filesystem::path file = folder_ / "selects.csv";
    each_row(file, read(file), name, 3, [&](const StepTableRow& row) { selects_.insert(row[1]); });
    for (const Unresolved& type : unresolved_) schema_.types_.push_back({type.name, resolved(type.underlying, file)});
    for (std::size_t i = 0; i < schema_.enumerations_.size(); ++i) {
      schema_.types_.push_back(
          {schema_.enumerations_[i].name, {StepKind::enumeration, 0, static_cast<std::uint16_t>(i)}});
    }
  }

  StepType resolved(std::string_view declared, const std::filesystem::path& file) const {
    std::uint8_t levels = 0;
    // A defined type of a defined type: IfcPositiveLengthMeasure, IfcLengthMeasure, REAL. No chain is longer than this.
    for (int hop = 0; hop < 8; ++hop) {
      const auto [more, base] = without_lists(declared);
      levels = static_cast<std::uint8_t>(levels + more);
      const auto primitive = std::find_if(kPrimitives.begin(), kPrimitives.end(), [&, name = base](const Primitive& p) {
        return name.substr(0, name.find('(')) == p.name;
      });
      if (primitive != kPrimitives.end()) return {primitive->kind, levels, 0};
      if (const auto entity = entities_.find(base); entity != entities_.end()) {
        return {StepKind::entity, levels, entity->second};
      }
      if (const auto values = enumerations_.find(base); values != enumerations_.end()) {
        return {StepKind::enumeration, levels, values->second};
      }
      if (selects_.count(base) != 0) return {StepKind::select, levels, 0};
      const auto type = defined_.find(base);
      if (type == defined_.end()) break;
      declared = type->second;
    }
    throw table_fault(file, "leaves '" + std::string(declared) + "' undefined");
  }

  void index_names() {
    schema_.upper_case_names_.reserve(schema_.entities_.size() + schema_.types_.size());
    const auto key = [&](std::string_view name) -> std::string_view {
      schema_.upper_case_names_.push_back(upper_case_of(name));
      return schema_.upper_case_names_.back();
    };
    for (std::size_t i = 0; i < schema_.entities_.size(); ++i) {
      schema_.entity_by_name_.emplace(key(schema_.entities_[i].name), static_cast<std::uint16_t>(i));
    }
    for (std::size_t i = 0; i < schema_.types_.size(); ++i) {
      schema_.type_by_name_.emplace(key(schema_.types_[i].name), static_cast<std::uint16_t>(i));
    }
  }

  void load_attributes(std::string_view name) {
    const std::filesystem::path file = folder_ / "attributes.csv";
    struct Range {
      std::uint16_t entity;
      std::size_t first;
      std::size_t count;
    };
    std::vector<Range> ranges;
    each_row(file, read(file), name, 6, [&](const StepTableRow& row) {
      const auto entity = entities_.find(row[1]);
      if (entity == entities_.end()) throw table_fault(file, "names '" + std::string(row[1]) + "', which is no entity");
      if (ranges.empty() || ranges.back().entity != entity->second) {
        ranges.push_back({entity->second, schema_.attributes_.size(), 0});
      }
      if (as_count(row[2]) != ++ranges.back().count) throw table_fault(file, "has a position out of order");
      const StepPresence presence = row[5] == "no"        ? StepPresence::required
                                    : row[5] == "derived" ? StepPresence::derived
                                                          : StepPresence::optional;
      schema_.attributes_.push_back({row[3], resolved(row[4], file), presence});
    });
    for (const Range& range : ranges) {
      StepEntity& entity = schema_.entities_[range.entity];
      entity.attributes = std::span(schema_.attributes_).subspan(range.first, range.count);
      if (range.count != entity.argument_count) throw table_fault(file, "and supertypes.csv disagree");
    }
  }
};

StepSchema::StepSchema(const std::filesystem::path& schema_dir, Generation generation) : generation_(generation) {
  files_.reserve(5);  // views point into them
  const std::filesystem::path folder = schema_dir / "ifc";
  Loader(*this, folder).load();
}

std::uint16_t StepSchema::find_entity(std::string_view upper_case) const {
  const auto found = entity_by_name_.find(upper_case);
  return found == entity_by_name_.end() ? kNoStepEntity : found->second;
}

bool StepSchema::is_a(std::uint16_t entity, std::uint16_t supertype) const {
  while (entity != supertype && entity != kNoStepEntity) entity = entities_[entity].supertype;
  return entity == supertype;
}

const StepSchema::DefinedType* StepSchema::find_type(std::string_view upper_case) const {
  const auto found = type_by_name_.find(upper_case);
  return found == type_by_name_.end() ? nullptr : &types_[found->second];
}

bool StepSchema::has_value(std::uint16_t enumeration, std::string_view upper_case) const {
  return enumerations_[enumeration].values.count(upper_case) != 0;
}

const StepSchema& step_schema(const std::filesystem::path& schema_dir, Generation generation) {
  static std::mutex mutex;
  static std::map<std::pair<std::string, Generation>, std::unique_ptr<const StepSchema>> loaded;
  const std::lock_guard lock(mutex);
  std::unique_ptr<const StepSchema>& schema = loaded[{schema_dir.string(), generation}];
  if (!schema) schema = std::make_unique<const StepSchema>(schema_dir, generation);
  return *schema;
}

Generation generation_of_schema_name(std::string_view name) {
  struct Known {
    std::string_view name;
    Generation generation;
  };
  constexpr std::array kKnown{
      Known{"IFC2X3", Generation::ifc2x3},      Known{"IFC2X3_FINAL", Generation::ifc2x3},
      Known{"IFC2X3_TC1", Generation::ifc2x3},  Known{"IFC4", Generation::ifc4},
      Known{"IFC4_ADD1", Generation::ifc4},     Known{"IFC4_ADD2", Generation::ifc4},
      Known{"IFC4_ADD2_TC1", Generation::ifc4}, Known{"IFC4X3", Generation::ifc4x3},
      Known{"IFC4X3_ADD1", Generation::ifc4x3}, Known{"IFC4X3_ADD2", Generation::ifc4x3},
      Known{"IFC4X3_TC1", Generation::ifc4x3},
  };
  const std::string upper = upper_case_of(name);
  const auto found =
      std::find_if(kKnown.begin(), kKnown.end(), [&](const Known& known) { return known.name == upper; });
  return found == kKnown.end() ? Generation::unknown : found->generation;
}

}  // namespace panel_dossier
