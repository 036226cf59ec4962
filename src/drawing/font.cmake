# Embeds a font file into a library as `extern const unsigned char evenlit_font_<name>[]` and `..._size`.
# The fonts are B612 (SIL Open Font License 1.1), drawn to be read on cockpit screens; Debian package fonts-b612.
function(evenlit_embed_font target name file)
  find_file(EVENLIT_FONT_${name} ${file} PATHS /usr/share/fonts PATH_SUFFIXES opentype/b612 truetype/b612 REQUIRED)
  file(READ ${EVENLIT_FONT_${name}} hex HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
  set(source ${CMAKE_CURRENT_BINARY_DIR}/font_${name}.cpp)
  file(CONFIGURE OUTPUT ${source} CONTENT
"extern const unsigned char evenlit_font_${name}[];
extern const unsigned evenlit_font_${name}_size;
const unsigned char evenlit_font_${name}[] = {${bytes}};
const unsigned evenlit_font_${name}_size = sizeof evenlit_font_${name};
")
  target_sources(${target} PRIVATE ${source})
endfunction()
