#include "sample_project/generator/project_folder.h"

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "sample_project/generator/building.h"

namespace sample_export {

namespace {

namespace fs = std::filesystem;

constexpr const char* kSettings = "settings.json";
constexpr const char* kRegister = "evidence/evidence.csv";
constexpr const char* kDeliveryNotes = "evidence/DN-451-delivery-notes.txt";

std::string read_file(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string text(std::istreambuf_iterator<char>(stream), {});
  if (!stream) throw std::runtime_error("cannot read '" + file.string() + "'");
  return text;
}

void write_file(const fs::path& file, const std::string& text) {
  std::ofstream stream(file, std::ios::binary | std::ios::trunc);
  stream << text;
  stream.close();
  if (!stream) throw std::runtime_error("cannot write '" + file.string() + "'");
}

/// The crane of the sample stands beside the first wing and goes on to the same place of each further one.
std::string fitted_settings(const std::string& sample, std::size_t panels) {
  constexpr double kMmInM = 1000.0;
  auto settings = nlohmann::ordered_json::parse(sample, nullptr, true, true);
  auto& crane = settings.at("structural").at("crane");
  const double x_m = crane.at("x_m").get<double>();
  const double y_m = crane.at("y_m").get<double>();
  const std::size_t wings = Site(panels).wings();
  for (std::size_t wing = 1; wing < wings; ++wing) {
    const Point corner = wing_corner(wing);
    crane["further_places"].push_back({{"x_m", x_m + corner.x / kMmInM}, {"y_m", y_m + corner.y / kMmInM}});
  }
  const Programme programme = programme_of(panels);
  auto& quantities = settings.at("quantities");
  quantities["cranes"] = programme.cranes;
  quantities["start_date"] = programme.erection_start;
  return settings.dump(2) + "\n";
}

/// `B1-softwood` and so on, of the wood in every batch of the project.
std::vector<std::string> batches_of_wood(std::size_t panels) {
  const auto per_batch = static_cast<std::size_t>(programme_of(panels).panels_per_batch);
  const std::size_t batches = (panels + per_batch - 1) / per_batch;
  std::vector<std::string> names;
  for (const char* material : {"softwood", "glulam", "osb"}) {
    for (std::size_t batch = 1; batch <= batches; ++batch) {
      names.push_back("B" + std::to_string(batch) + "-" + material);
    }
  }
  return names;
}

/// The first line of the note that speaks of a batch and all behind it are written anew.
std::string fitted_notes(const std::string& sample, const std::vector<std::string>& batches) {
  constexpr std::size_t kNameWidth = 15;
  const std::size_t first = sample.find("  B1-");
  if (first == std::string::npos) throw std::runtime_error("the delivery notes of the sample name no batch");
  std::string notes = sample.substr(0, first);
  for (const std::string& batch : batches) {
    const std::string blanks(batch.size() < kNameWidth ? kNameWidth - batch.size() : 1, ' ');
    notes.append("  ").append(batch).append(blanks).append("CERTIFIED, claim on the supplier's delivery note\n");
  }
  return notes;
}

/// The scope of the delivery notes stands in quotes and begins with the first batch.
std::string fitted_register(const std::string& sample, const std::vector<std::string>& batches) {
  const std::size_t first = sample.find("\"B1-");
  const std::size_t last = first == std::string::npos ? first : sample.find('"', first + 1);
  if (last == std::string::npos) throw std::runtime_error("the register of the sample names no batch");
  std::string scope;
  for (const std::string& batch : batches) scope.append(scope.empty() ? "" : ", ").append(batch);
  return sample.substr(0, first + 1) + scope + sample.substr(last);
}

}  // namespace

void write_project_folder(const fs::path& sample, const fs::path& folder, std::size_t panels) {
  fs::create_directories(folder);
  constexpr auto kReplace = fs::copy_options::recursive | fs::copy_options::overwrite_existing;
  for (const char* name : {"rates.csv", "carbon_targets.csv", "confirmations.csv", "people.csv", "materials.csv",
                           "lifting.csv", "evidence"}) {
    fs::copy(sample / name, folder / name, kReplace);
  }
  const std::vector<std::string> batches = batches_of_wood(panels);
  write_file(folder / kSettings, fitted_settings(read_file(sample / kSettings), panels));
  write_file(folder / kDeliveryNotes, fitted_notes(read_file(sample / kDeliveryNotes), batches));
  write_file(folder / kRegister, fitted_register(read_file(sample / kRegister), batches));
}

}  // namespace sample_export
