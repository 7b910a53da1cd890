#include "core/api/support/shared_text.h"

#include <atomic>
#include <utility>

namespace panel_dossier {

// The count is kept here and not by a shared pointer, whose code would be that of the plugin that made the text and
// gone once the plugin is.
struct SharedText::Counted {
  explicit Counted(std::string value) : text(std::move(value)) {}

  std::atomic<std::size_t> holders = 1;
  const std::string text;
};

SharedText::SharedText(std::string text) : text_(text.empty() ? nullptr : new Counted(std::move(text))) {}
SharedText::SharedText(std::string_view text) : SharedText(std::string(text)) {}
SharedText::SharedText(const char* text) : SharedText(std::string(text)) {}

SharedText::SharedText(const SharedText& other) noexcept : text_(other.text_) {
  if (text_ != nullptr) text_->holders.fetch_add(1, std::memory_order_relaxed);
}

SharedText::SharedText(SharedText&& other) noexcept : text_(std::exchange(other.text_, nullptr)) {}

SharedText& SharedText::operator=(const SharedText& other) noexcept {
  SharedText copy(other);
  std::swap(text_, copy.text_);
  return *this;
}

SharedText& SharedText::operator=(SharedText&& other) noexcept {
  std::swap(text_, other.text_);
  return *this;
}

SharedText::~SharedText() {
  // The last holder must see all that the others did before it takes the text away. The analyser does not count them.
  if (text_ != nullptr && text_->holders.fetch_sub(1, std::memory_order_acq_rel) == 1) {
    delete text_;  // NOLINT(clang-analyzer-cplusplus.NewDelete)
  }
}

const std::string& SharedText::str() const noexcept {
  static const std::string none;
  return text_ == nullptr ? none : text_->text;
}

SharedText SharedTexts::of(std::string_view text) {
  const auto known = known_.find(text);
  if (known != known_.end()) return known->second;
  SharedText made(text);
  known_.emplace(made.str(), made);
  return made;
}

}  // namespace panel_dossier
