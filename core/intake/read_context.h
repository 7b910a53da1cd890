// What every reading step needs, and the values it asks for.
#pragma once

#include <atomic>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/graph.h"

namespace panel_dossier {

/// Refuses an export that is small as a file and huge once shared types and shapes are copied to each panel. Threads
/// may take from one at once.
class ExpansionBudget {
 public:
  explicit ExpansionBudget(std::size_t file_size);

  /// False once more items have been asked for than the file could honestly need.
  bool take(std::size_t items);
  bool is_spent() const { return is_over_.load(std::memory_order_relaxed); }

 private:
  std::size_t limit_;
  std::atomic<std::size_t> used_ = 0;
  std::atomic<bool> is_over_ = false;
};

struct ReadContext {
  const Graph& graph;
  Reporter& report;
  ExpansionBudget& budget;
};

/// A finite number in the classic notation, nothing else; independent of the locale.
std::optional<double> parse_number(std::string_view text);

/// An attribute as a number in the export's units. Reports a value that is no number and returns none then.
std::optional<double> number(const ReadContext& context, const Element& owner, std::string_view attribute);
/// The same, and reports an absent attribute.
std::optional<double> required_number(const ReadContext& context, const Element& owner, std::string_view attribute);
/// A list of numbers, of one or two levels, flattened. Reports what is no number and returns none then.
std::optional<std::vector<double>> numbers(const ReadContext& context, const Element& owner,
                                           std::string_view attribute);
/// One of the lists that a list of lists holds.
struct NumberList {
  std::string type;  ///< the defined type it was given, such as `IfcArcIndex`; empty when not written
  std::vector<double> values;
};
/// The inner lists of a list of lists of numbers, in order; a list written as one text is a single inner one. Reports
/// what is no number and returns none then.
std::optional<std::vector<NumberList>> number_lists(const ReadContext& context, const Element& owner,
                                                    std::string_view attribute);
/// `true`/`t`/`1` and `false`/`f`/`0` in either case; none for anything else, `unknown` among it.
std::optional<bool> parse_logical(std::string_view text);

}  // namespace panel_dossier
