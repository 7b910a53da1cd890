// Owns and encodes OpenSSL objects. Private to the seal stage.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>

namespace panel_dossier {

/// Calls the library's own function for freeing that type.
template <auto free_function>
struct Freed {
  template <typename T>
  void operator()(T* object) const {
    free_function(object);
  }
};

template <typename T, auto free_function>
using Handle = std::unique_ptr<T, Freed<free_function>>;

/// The object, owned. Throws std::runtime_error when it is null: `cannot DO_WHAT`.
template <typename Owner>
Owner owned(typename Owner::pointer object, const std::string& do_what) {
  if (object == nullptr) throw std::runtime_error("cannot " + do_what);
  return Owner(object);
}

/// DER of an object through its i2d function. Throws std::runtime_error when it cannot be encoded.
template <typename T, typename Encode>
std::string encoded(T* object, Encode encode) {
  const int size = encode(object, nullptr);
  if (size <= 0) throw std::runtime_error("cannot encode a part of a certificate or signature");
  std::string octets(static_cast<std::size_t>(size), '\0');
  auto* out = reinterpret_cast<unsigned char*>(octets.data());
  encode(object, &out);
  return octets;
}

}  // namespace panel_dossier
