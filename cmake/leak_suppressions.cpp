// Linked into programs and tests of a sanitizer build.

extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n"
         "leak:libpango\n"
         "leak:libcairo\n"
         "leak:libglib\n"
         "leak:libgobject\n";
}
