#include "core/intake/library/library_values.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/intake/claims/claimed_value.h"
#include "core/intake/library/product_match.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kMakerSet = "Pset_ManufacturerTypeInformation";
/// The name of the row's own product.
constexpr std::string_view kProductLabel = "Pset_ManufacturerTypeInformation.ModelLabel";

bool is_same_word(const std::string& a, const std::string& b) {
  return lower_case(trimmed(a)) == lower_case(trimmed(b));
}

std::string text_property(const Properties& properties, std::string_view name) {
  const auto found = properties.text(kMakerSet, name);
  return found ? found->value : std::string();
}

MatchSubject subject_of(const Material& material) {
  std::string article = material.article_number;
  if (article.empty()) article = text_property(material.properties, "ArticleNumber");
  return {material.name, material.classification, article, text_property(material.properties, "ModelLabel")};
}

MatchSubject subject_of(const std::string& name, const Properties& properties) {
  return {name, {}, text_property(properties, "ArticleNumber"), text_property(properties, "ModelLabel")};
}

/// The panel by its mark, then by its type.
std::array<MatchSubject, 2> subjects_of(const Panel& panel) {
  MatchSubject by_mark;
  by_mark.name = panel.mark;
  MatchSubject by_type;
  by_type.name = panel.type;
  if (!panel.classifications.empty()) by_type.classification = panel.classifications.front();
  return {by_mark, by_type};
}

/// A loop, strap or anchor by which the panel is lifted says so in its ObjectType.
bool is_for_lifting(const Part& part) {
  return lower_case(part.object_type).find("lifting") != std::string::npos;
}

/// A product of another name is another product, whatever pattern covers both.
std::string other_identity(const LibraryProduct& product, MatchRule rule, const MatchSubject& subject,
                           const Properties& properties) {
  if (rule == MatchRule::article_number) return {};
  if (!subject.product.empty() && !is_same_word(subject.product, product.product)) {
    return "its product is '" + subject.product + "' in the export and '" + product.product + "' there";
  }
  const std::string maker = text_property(properties, "Manufacturer");
  for (const ProductValue& value : product.values) {
    const auto* stated = std::get_if<std::string>(&value.property.value);
    if (maker.empty() || stated == nullptr || value.full_name() != "Pset_ManufacturerTypeInformation.Manufacturer")
      continue;
    if (!is_same_word(maker, *stated)) return "its maker is '" + maker + "' in the export and '" + *stated + "' there";
  }
  return {};
}

class LibraryJoin {
 public:
  LibraryJoin(std::vector<LibraryProduct>& products, const std::vector<PropertyRow>& rows, Confirmations& confirmations,
              std::string export_file, Diagnostics& diagnostics)
      : products_(products),
        confirmations_(confirmations),
        export_file_(std::move(export_file)),
        diagnostics_(diagnostics) {
    for (std::size_t i = 0; i < products.size(); ++i) candidates_[pool_of(products[i].kind)].push_back(i);
    for (const PropertyRow& row : rows) {
      const std::string name = row.set + "." + row.property;
      for (const std::string& standard : row.standard) {
        same_meaning_[name].insert(standard);
        same_meaning_[standard].insert(name);
      }
    }
  }

  void join(Project& project) {
    for (Material& material : project.materials) {
      const LibraryProduct* product = join(LibraryTableKind::materials, subject_of(material), material.properties);
      if (product != nullptr) add_category(*product, material);
    }
    for (Panel& panel : project.panels) {
      // A row of the panel itself says more than one of its type.
      const auto [by_mark, by_type] = subjects_of(panel);
      const LibraryProduct* of_mark = join(LibraryTableKind::panels, by_mark, panel.properties);
      const LibraryProduct* of_type = join(LibraryTableKind::panels, by_type, panel.properties);
      if (of_mark != nullptr && of_type != nullptr && of_mark != of_type) tell_of_type(*of_mark, *of_type, panel);
      for (Part& part : panel.parts) {
        if (part.kind != PartKind::fastener) continue;
        const auto kind = is_for_lifting(part) ? LibraryTableKind::lifting : LibraryTableKind::fixings;
        join(kind, subject_of(part.name, part.properties), part.properties);
      }
      for (Opening& opening : panel.openings) {
        if (opening.filling_entity.empty()) continue;
        const MatchSubject subject = subject_of(opening.filling_name, opening.filling_properties);
        join(LibraryTableKind::windows, subject, opening.filling_properties);
      }
    }
  }

 private:
  using SubjectKey = std::tuple<LibraryTableKind, std::string, std::string, std::string, std::string>;

  std::vector<LibraryProduct>& products_;
  Confirmations& confirmations_;
  std::string export_file_;
  Diagnostics& diagnostics_;
  std::map<LibraryTableKind, std::vector<std::size_t>> candidates_;
  std::map<std::string, std::set<std::string>, std::less<>> same_meaning_;
  std::map<SubjectKey, std::optional<ProductMatch>> known_;  ///< most parts of a project are of few kinds
  std::set<std::string> told_;

  /// Boards are materials.
  static LibraryTableKind pool_of(LibraryTableKind kind) {
    return kind == LibraryTableKind::boards ? LibraryTableKind::materials : kind;
  }

  void tell(Severity severity, const std::string& file, std::uint32_t line, std::string message, std::string advice) {
    if (told_.insert(message).second) report(severity, file, line, std::move(message), std::move(advice));
  }

  void report(Severity severity, const std::string& file, std::uint32_t line, std::string message, std::string advice) {
    diagnostics_.push_back({severity, file, line, 0, {}, {}, std::move(message), std::move(advice)});
  }

  /// The product that was joined, or null.
  const LibraryProduct* join(LibraryTableKind kind, const MatchSubject& subject, Properties& properties) {
    const auto candidates = candidates_.find(kind);
    if (candidates == candidates_.end()) return nullptr;
    const SubjectKey key(kind, subject.name, subject.classification, subject.article_number, subject.product);
    auto known = known_.find(key);
    if (known == known_.end()) {
      known = known_.emplace(key, best_match(products_, candidates->second, subject)).first;
      if (known->second) tell_of(*known->second, subject);
    }
    const auto& match = known->second;
    if (!match || match->rival) return nullptr;
    LibraryProduct& product = products_[match->product];
    product.is_used = true;
    if (const std::string other = other_identity(product, match->rule, subject, properties); !other.empty()) {
      tell(Severity::warning, product.file, product.row,
           "the row matches '" + subject.name + "' by its " + std::string(to_string(match->rule)) + ", but " + other +
               "; nothing of it is used",
           "correct one of them, or join them by the article number");
      return nullptr;
    }
    add_values(product, subject.name, properties);
    return &product;
  }

  /// What a material is decides which rules hold for it: of one that is two things nothing is used.
  void add_category(const LibraryProduct& product, Material& material) {
    if (product.category.empty()) return;
    if (material.category.empty()) {
      material.category = product.category;
      return;
    }
    if (is_same_word(material.category, product.category)) return;
    const std::string what = "category of '" + material.name + "' is '" + material.category + "' in the export and '" +
                             product.category + "' in " + product.place;
    const std::string advice = "correct one of them";
    tell(Severity::warning, product.file, product.row, what + "; nothing that is said of it is used", advice);
    std::vector<std::string> names;
    for (const auto& [name, property] : material.properties.all()) names.push_back(name);
    const std::string why = joined({what, advice}, "; ");
    for (const std::string& name : names) material.properties.withhold(name, why);
  }

  /// Tells where the row of a panel says otherwise than that of its type.
  void tell_of_type(const LibraryProduct& of_mark, const LibraryProduct& of_type, const Panel& panel) {
    for (const ProductValue& value : of_mark.values) {
      const std::string name = value.full_name();
      const auto other = std::find_if(of_type.values.begin(), of_type.values.end(),
                                      [&](const ProductValue& one) { return one.full_name() == name; });
      if (name == kProductLabel || other == of_type.values.end()) continue;
      if (is_same_claim(value.property, other->property)) continue;
      tell(Severity::warning, of_mark.file, of_mark.row,
           name + " of '" + panel.mark + "' is " + claim_in_words(value.property) + ", but " +
               claim_in_words(other->property) + " of its type in " + of_type.place + "; that of the panel is used",
           "correct one of them, if the panel does not differ from its type");
    }
  }

  void tell_of(const ProductMatch& match, const MatchSubject& subject) {
    const LibraryProduct& product = products_[match.product];
    const std::string rule(to_string(match.rule));
    if (match.rival) {
      const LibraryProduct& rival = products_[*match.rival];
      tell(Severity::error, rival.file, rival.row,
           "the row matches '" + subject.name + "' by its " + rule + ", as " + product.place + " does",
           "write a more exact rule into one of them: an article number, a classification or the name");
    }
    for (const std::size_t earlier : match.passed_over) {
      tell(Severity::warning, products_[earlier].file, products_[earlier].row,
           "the row matches '" + subject.name + "' and is passed over: " + product.place +
               " of a library named later does too",
           "take one of the rows away, if that is not meant");
      products_[earlier].is_used = true;
    }
  }

  void add_values(const LibraryProduct& product, const std::string& of, Properties& properties) {
    for (const ProductValue& value : product.values) {
      const std::string name = value.full_name();
      if (contradicts(value, name, product, of, properties)) continue;
      properties.add(value.known->set, value.known->property, value.property);
    }
  }

  /// Withholds what the export says otherwise than the product; true where it does.
  bool contradicts(const ProductValue& value, const std::string& name, const LibraryProduct& product,
                   const std::string& of, Properties& properties) {
    std::set<std::string> names{name};
    if (const auto others = same_meaning_.find(name); others != same_meaning_.end()) {
      names.insert(others->second.begin(), others->second.end());
    }
    bool found = false;
    for (const std::string& stated : names) {
      const auto at = properties.all().find(stated);
      // What another property of the same product says was taken from the library too.
      if (at == properties.all().end() || at->second.origin.kind == OriginKind::input_table) continue;
      const Property& own = at->second;
      const bool is_comparable = stated == name || own.unit == value.property.unit;
      if (!is_comparable || is_same_claim(own, value.property)) continue;
      found = true;
      withhold(stated, own, value, product, of, properties);
    }
    return found;
  }

  void withhold(const std::string& stated, const Property& own, const ProductValue& value,
                const LibraryProduct& product, const std::string& of, Properties& properties) {
    const std::string other =
        claim_in_words(value.property) + " in " + product.place + " (" + value.property.origin.source + ")";
    const double* number = std::get_if<double>(&own.value);
    if (number != nullptr && confirmations_.confirm(stated, of, *number, "the library says " + other)) return;
    const std::string place = place_in_words(own.origin);
    const std::string what = stated + " of '" + of + "' is " + claim_in_words(own) + " in " +
                             (place.empty() ? "the export" : place) + " and " + other;
    const std::string advice = "correct one of them, or confirm the export's number under `confirmed_values`";
    // The same part stands in many panels: the first of them is named.
    if (told_.insert(stated + of + claim_in_words(own) + other).second) {
      report(Severity::warning, export_file_, own.origin.line, what + "; neither is used", advice);
    }
    properties.withhold(stated, what + "; " + advice);
  }
};

}  // namespace

void add_library_values(Project& project, std::vector<LibraryProduct>& products, const std::vector<PropertyRow>& rows,
                        Confirmations& confirmations, const std::string& export_file, Diagnostics& diagnostics) {
  LibraryJoin(products, rows, confirmations, export_file, diagnostics).join(project);
}

}  // namespace panel_dossier
