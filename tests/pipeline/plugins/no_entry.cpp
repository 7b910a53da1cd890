extern "C" __attribute__((visibility("default"))) int some_other_symbol() {
  return 1;
}
