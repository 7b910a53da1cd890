// Who is told how far a long run has come.
#pragma once

#include <cstddef>
#include <string>

namespace panel_dossier {

/// One stage at a time: `begin`, then `advance` until `total` is reached. `advance` may be called from several threads
/// at once; the rest from one.
class Progress {
 public:
  virtual ~Progress() = default;
  virtual void begin(const std::string& stage, std::size_t total) = 0;
  virtual void advance(std::size_t count) = 0;
};

/// For callers that show nothing.
class NoProgress final : public Progress {
 public:
  void begin(const std::string& /*stage*/, std::size_t /*total*/) override {}
  void advance(std::size_t /*count*/) override {}
};

}  // namespace panel_dossier
