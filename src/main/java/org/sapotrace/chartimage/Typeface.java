package org.sapotrace.chartimage;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.font.FontRenderContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.pdfbox.pdmodel.PDDocument;

/** Liberation Sans, which lies in a dependency's jar, so that text is as wide on every machine. */
final class Typeface {

  private static final String RESOURCE =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);
  private static final Font FONT = load();
  private static final Font MACHINE = machine();

  private Typeface() {}

  /** A stretch of text in one font. */
  record Run(String text, Font font) {
    double width() {
      return font.getStringBounds(text, CONTEXT).getWidth();
    }
  }

  /** The typeface as a TrueType file. */
  static InputStream open() throws IOException {
    InputStream in = PDDocument.class.getResourceAsStream(RESOURCE);
    if (in == null) {
      throw new IOException("the typeface " + RESOURCE + " is missing");
    }
    return in;
  }

  static String name() {
    return FONT.getFontName(Locale.ROOT);
  }

  static Font size(double size) {
    return FONT.deriveFont((float) size);
  }

  /**
   * The text in fonts that have its letters: ours, or where it lacks a script the machine's own, if
   * that has it. A letter that neither has is drawn as a box.
   */
  static List<Run> runs(String text, double size) {
    if (FONT.canDisplayUpTo(text) < 0) {
      return List.of(new Run(text, size(size)));
    }
    List<Run> runs = new ArrayList<>();
    int start = 0;
    for (int i = 0; i < text.length(); i = text.offsetByCodePoints(i, 1)) {
      int next = text.offsetByCodePoints(i, 1);
      Origin origin = Origin.of(text.codePointAt(i));
      if (next == text.length() || origin != Origin.of(text.codePointAt(next))) {
        Font font = origin == Origin.MACHINE ? MACHINE : FONT;
        runs.add(new Run(text.substring(start, next), font.deriveFont((float) size)));
        start = next;
      }
    }
    return runs;
  }

  /**
   * Who has a letter; those that nobody has stand apart, as they would keep others from being text.
   */
  private enum Origin {
    OURS,
    MACHINE,
    NOWHERE;

    static Origin of(int letter) {
      if (FONT.canDisplay(letter)) {
        return OURS;
      }
      return Typeface.MACHINE.canDisplay(letter) ? MACHINE : NOWHERE;
    }
  }

  /** The advance of a text, px. */
  static double width(String text, double size) {
    return runs(text, size).stream().mapToDouble(Run::width).sum();
  }

  /** The text without what neither a picture nor an XML document can hold. */
  static String clean(String text) {
    StringBuilder clean = new StringBuilder(text.length());
    text.codePoints().map(Typeface::printable).forEach(clean::appendCodePoint);
    return clean.toString().strip();
  }

  private static int printable(int letter) {
    boolean embeds = letter >= 0x202A && letter <= 0x202E;
    boolean isolates = letter >= 0x2066 && letter <= 0x2069;
    if (embeds || isolates) {
      // They would turn the text around them.
      return ' ';
    }
    return switch (Character.getType(letter)) {
      case Character.CONTROL, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR -> ' ';
      case Character.SURROGATE, Character.UNASSIGNED -> 0xFFFD;
      default -> letter;
    };
  }

  /** The machine's own sans serif; ours again on a machine that has no font at all. */
  private static Font machine() {
    Font font = new Font(Font.SANS_SERIF, Font.PLAIN, 1);
    try {
      return font.canDisplay('A') ? font : FONT;
    } catch (Error noPhysicalFonts) {
      return FONT;
    }
  }

  private static Font load() {
    try {
      return read();
    } catch (IOException | InternalError noFontsHere) {
      withoutSystemFonts();
      try {
        return read();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static Font read() throws IOException {
    try (InputStream in = open()) {
      return Font.createFont(Font.TRUETYPE_FONT, in);
    } catch (FontFormatException e) {
      throw new IOException(e);
    }
  }

  /**
   * Lets Java start its font machinery on a machine without any font, which it refuses unless told
   * of a configuration, however empty.
   */
  private static void withoutSystemFonts() {
    try {
      Path configuration = Files.createTempFile("fonts", ".properties");
      configuration.toFile().deleteOnExit();
      Files.writeString(configuration, "version=1\nsequence.allfonts=default\n");
      System.setProperty("sun.awt.fontconfig", configuration.toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
