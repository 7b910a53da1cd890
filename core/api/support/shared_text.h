// A text that its copies share: origins repeat the same few names in every value of a project.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace panel_dossier {

/// An unchanging text of the size of a pointer. Copies share it and may be used by several threads at once; an empty
/// one takes no memory.
class SharedText {
 public:
  SharedText() = default;
  // Without `explicit`, so that it is assigned as a string is.
  SharedText(std::string text);
  SharedText(std::string_view text);
  SharedText(const char* text);
  SharedText(const SharedText& other) noexcept;
  SharedText(SharedText&& other) noexcept;
  SharedText& operator=(const SharedText& other) noexcept;
  SharedText& operator=(SharedText&& other) noexcept;
  ~SharedText();

  const std::string& str() const noexcept;
  operator const std::string&() const noexcept { return str(); }
  bool empty() const noexcept { return text_ == nullptr; }

  friend bool operator==(const SharedText& a, const SharedText& b) noexcept { return a.str() == b.str(); }
  friend bool operator!=(const SharedText& a, const SharedText& b) noexcept { return a.str() != b.str(); }
  friend bool operator<(const SharedText& a, const SharedText& b) noexcept { return a.str() < b.str(); }

 private:
  struct Counted;
  Counted* text_ = nullptr;
};

inline std::string operator+(const SharedText& a, std::string_view b) {
  return std::string(a.str()).append(b);
}
inline std::string operator+(std::string a, const SharedText& b) {
  return std::move(a.append(b.str()));
}

/// Hands out one shared text for all that are equal. Belongs to one thread.
class SharedTexts {
 public:
  SharedText of(std::string_view text);

 private:
  std::unordered_map<std::string_view, SharedText> known_;  ///< under a view of itself
};

}  // namespace panel_dossier
