#include "core/api/support/shared_text.h"

#include <pthread.h>
#include <unistd.h>

#include <atomic>
#include <cstdint>
#include <utility>

namespace panel_dossier {

namespace {

/// Not known before it is first asked for: texts are made while programs and plugins are still being set up.
constinit std::atomic<pid_t> known_process = 0;

pid_t this_process() noexcept {
  pid_t process = known_process.load(std::memory_order_relaxed);
  if (process == 0) {
    process = ::getpid();
    known_process.store(process, std::memory_order_relaxed);
  }
  return process;
}

const int kFollowsForks = ::pthread_atfork(nullptr, nullptr, [] { known_process = 0; });

}  // namespace

// The count is kept here and not by a shared pointer, whose code would be that of the plugin that made the text and
// gone once the plugin is. Only the process that made a text counts: one that is forked of it shares the memory of all
// texts as long as it writes to none, and leaves them where they are.
struct SharedText::Counted {
  explicit Counted(std::string value) : text(std::move(value)) {}

  std::atomic<std::uint32_t> holders = 1;
  const pid_t made_by = this_process();
  const std::string text;

  bool is_counted() const noexcept { return made_by == this_process(); }
};

SharedText::SharedText(std::string text) : text_(text.empty() ? nullptr : new Counted(std::move(text))) {}
SharedText::SharedText(std::string_view text) : SharedText(std::string(text)) {}
SharedText::SharedText(const char* text) : SharedText(std::string(text)) {}

SharedText::SharedText(const SharedText& other) noexcept : text_(other.text_) {
  if (text_ != nullptr && text_->is_counted()) text_->holders.fetch_add(1, std::memory_order_relaxed);
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
  // NOLINTBEGIN(clang-analyzer-cplusplus.NewDelete)
  if (text_ != nullptr && text_->is_counted() && text_->holders.fetch_sub(1, std::memory_order_acq_rel) == 1) {
    delete text_;
  }
  // NOLINTEND(clang-analyzer-cplusplus.NewDelete)
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
