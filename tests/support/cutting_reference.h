// The least stock length of a small cutting problem by GLPK's integer solver over all patterns that fit.
#pragma once

#include <cstddef>
#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::testing {

/// `glpsol` of the package glpk-utils.
inline bool glpk_is_there() {
  return std::system("command -v glpsol >/dev/null 2>&1") == 0;
}

/// Writes the integer program in the CPLEX format, runs glpsol and reads the objective back.
class CuttingReference {
 public:
  CuttingReference(const std::vector<quantities::LengthDemand>& demands, const quantities::StockRules& rules)
      : demands_(demands), rules_(rules), counts_(demands.size(), 0) {
    for (const quantities::Micrometres stock : rules.lengths) list_patterns(stock, 0, room_of(rules, stock));
  }

  /// Stock length in µm. Throws when glpsol does not prove an optimum.
  quantities::Micrometres optimum() const {
    const TemporaryFolder folder;
    const std::string model = (folder.path() / "model.lp").string();
    const std::string answer = (folder.path() / "answer.txt").string();
    std::ofstream(model) << program();
    const std::string command = "glpsol --lp '" + model + "' --cuts --tmlim 60 -o '" + answer + "' >/dev/null 2>&1";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("glpsol failed");
    return read_objective(answer);
  }

 private:
  struct Pattern {
    quantities::Micrometres stock = 0;
    std::vector<int> counts;
  };

  std::vector<quantities::LengthDemand> demands_;
  quantities::StockRules rules_;
  std::vector<int> counts_;
  std::vector<Pattern> patterns_;

  /// Every pattern to which no further piece can be added.
  void list_patterns(quantities::Micrometres stock, std::size_t item, quantities::Micrometres room) {
    if (item == demands_.size()) {
      for (const quantities::LengthDemand& demand : demands_) {
        if (demand.length + rules_.kerf <= room) return;
      }
      patterns_.push_back({stock, counts_});
      return;
    }
    const quantities::Micrometres each = demands_[item].length + rules_.kerf;
    for (int count = 0; count * each <= room; ++count) {
      counts_[item] = count;
      list_patterns(stock, item + 1, room - count * each);
    }
    counts_[item] = 0;
  }

  std::string program() const {
    std::string text = "Minimize\n bought:";
    for (std::size_t p = 0; p < patterns_.size(); ++p) {
      text += " + " + std::to_string(patterns_[p].stock) + " x" + std::to_string(p) + "\n";
    }
    text += "Subject To\n";
    for (std::size_t i = 0; i < demands_.size(); ++i) {
      text += " d" + std::to_string(i) + ":";
      for (std::size_t p = 0; p < patterns_.size(); ++p) {
        if (patterns_[p].counts[i] > 0) {
          text += " + " + std::to_string(patterns_[p].counts[i]) + " x" + std::to_string(p) + "\n";
        }
      }
      text += " >= " + std::to_string(demands_[i].count) + "\n";
    }
    text += "General\n";
    for (std::size_t p = 0; p < patterns_.size(); ++p) text += " x" + std::to_string(p) + "\n";
    return text + "End\n";
  }

  static quantities::Micrometres read_objective(const std::string& answer) {
    std::ifstream file(answer);
    bool optimal = false;
    for (std::string line; std::getline(file, line);) {
      if (line.starts_with("Status:")) optimal = line.find("INTEGER OPTIMAL") != std::string::npos;
      if (!line.starts_with("Objective:")) continue;
      if (!optimal) throw std::runtime_error("glpsol proved no optimum");
      return static_cast<quantities::Micrometres>(std::stod(line.substr(line.find('=') + 1)) + 0.5);
    }
    throw std::runtime_error("glpsol gave no objective");
  }
};

}  // namespace panel_dossier::testing
