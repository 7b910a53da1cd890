// Reading an export of 1,000 panels in both forms, beside a bare pugixml parse and a bare pass of a tokenizer over the
// same bytes. Each is done in a process of its own, so that its largest memory is known. Prints the best of several
// runs.
//
// usage: intake_bench SAMPLE_EXPORT_PROGRAM [PANELS]
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <functional>
#include <pugixml.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/intake/document/file_bytes.h"
#include "core/intake/export_reader.h"
#include "core/intake/step/step_text.h"

namespace {

using namespace panel_dossier;

constexpr int kRuns = 5;

struct Cost {
  double seconds = 0.0;
  double processor_seconds = 0.0;
  double megabytes = 0.0;  ///< beyond what the process and the bytes of the file take
};

double megabytes_now() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

double processor_now() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

/// In a process of its own.
Cost cost_of(const std::filesystem::path& file, const std::function<void(const std::string&)>& task) {
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = fork();
  if (child == 0) {
    const std::string bytes = read_file(file);
    const double megabytes = megabytes_now();
    const double processor = processor_now();
    const auto start = std::chrono::steady_clock::now();
    task(bytes);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
    const Cost cost{taken.count(), processor_now() - processor, megabytes_now() - megabytes};
    const bool is_written = write(ends[1], &cost, sizeof(cost)) == sizeof(cost);
    _exit(is_written ? 0 : 1);
  }
  Cost cost;
  const bool is_read = read(ends[0], &cost, sizeof(cost)) == sizeof(cost);
  close(ends[0]);
  close(ends[1]);
  int status = 0;
  waitpid(child, &status, 0);
  if (!is_read || status != 0) throw std::runtime_error("a run failed");
  return cost;
}

Cost best_of(const std::filesystem::path& file, const std::function<void(const std::string&)>& task) {
  std::vector<Cost> costs;
  for (int i = 0; i < kRuns; ++i) costs.push_back(cost_of(file, task));
  return *std::min_element(costs.begin(), costs.end(),
                           [](const Cost& a, const Cost& b) { return a.seconds < b.seconds; });
}

void parse_bare(const std::string& bytes) {
  std::string in_place = bytes;
  pugi::xml_document document;
  const auto options = pugi::parse_default | pugi::parse_embed_pcdata;
  if (!document.load_buffer_inplace(in_place.data(), in_place.size(), options, pugi::encoding_utf8)) std::abort();
}

/// Every token of the file, told apart and counted, nothing kept.
void tokenize_bare(const std::string& bytes) {
  const char* end = bytes.data() + bytes.size();
  std::size_t words = 0;
  std::size_t strings = 0;
  std::size_t signs = 0;
  for (const char* at = after_step_blanks(bytes.data(), end); at < end; at = after_step_blanks(at, end)) {
    if (*at == '\'') {
      at = after_step_string(at, end);
      if (at == nullptr) std::abort();
      ++strings;
    } else if (is_step_letter(*at) || is_step_digit(*at)) {
      at = after_step_word(at, end);
      ++words;
    } else {
      ++at;
      ++signs;
    }
  }
  if (words == 0 || strings == 0 || signs == 0) std::abort();
}

void read_whole(const std::string& bytes) {
  IntakeOptions options;
  options.schema_dir = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";
  options.project_dir = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project";
  const IntakeResult result = read_export(bytes, "export", options);
  if (result.project) return;
  for (const Diagnostic& diagnostic : result.diagnostics) std::fprintf(stderr, "%s\n", to_string(diagnostic).c_str());
  std::abort();
}

void print(const char* name, const Cost& cost, const Cost& bare, double file_mb) {
  std::printf("%-34s %7.2f s  %6.1f x bare  %7.2f s of processor  %8.0f MB = %.1f x the file\n", name, cost.seconds,
              cost.seconds / bare.seconds, cost.processor_seconds, cost.megabytes, cost.megabytes / file_mb);
}

double size_mb(const std::filesystem::path& file) {
  return static_cast<double>(std::filesystem::file_size(file)) / 1e6;
}

int run(const std::string& generator, const std::string& panels) {
  const std::filesystem::path folder = std::filesystem::temp_directory_path();
  const std::filesystem::path xml = folder / "intake-bench.ifcxml";
  const std::filesystem::path step = folder / "intake-bench.ifc";
  const std::string command =
      "'" + generator + "' --panels " + panels + " --out '" + xml.string() + "' --step '" + step.string() + "'";
  if (std::system(command.c_str()) != 0) throw std::runtime_error("the generator failed");
  const Cost xml_bare = best_of(xml, parse_bare);
  const Cost step_bare = best_of(step, tokenize_bare);
  std::printf("ifcXML, %.1f MB; memory beyond the bytes of the file\n", size_mb(xml));
  print("bare pugixml parse", xml_bare, xml_bare, size_mb(xml));
  print("whole intake", best_of(xml, read_whole), xml_bare, size_mb(xml));
  std::printf("STEP, %.1f MB\n", size_mb(step));
  print("bare pass of a tokenizer", step_bare, step_bare, size_mb(step));
  print("whole intake", best_of(step, read_whole), step_bare, size_mb(step));
  std::filesystem::remove(xml);
  std::filesystem::remove(step);
  return EXIT_SUCCESS;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    if (argc < 2) throw std::runtime_error("usage: intake_bench SAMPLE_EXPORT_PROGRAM [PANELS]");
    return run(argv[1], argc > 2 ? argv[2] : "1000");
  } catch (const std::exception& error) {
    std::fprintf(stderr, "intake_bench: error: %s\n", error.what());
    return EXIT_FAILURE;
  }
}
