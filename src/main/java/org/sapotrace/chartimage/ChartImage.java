package org.sapotrace.chartimage;

import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.ImageIO;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.controlchart.ControlChart;

/**
 * A form in which a control chart or a capability can be shown. Pictures of the same chart at the
 * same size are the same, byte for byte, and any number of threads may make them at once.
 */
public enum ChartImage {
  /** Pixels. */
  PNG("image/png") {
    @Override
    byte[] draw(Painting painting, int width, int height) {
      BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
      Graphics2D g = image.createGraphics();
      try {
        painting.paint(g, width, height);
      } finally {
        g.dispose();
      }
      return encode(image);
    }
  },
  /** Lines and text, with the headline as title and what the chart shows as description. */
  SVG("image/svg+xml") {
    @Override
    byte[] draw(Painting painting, int width, int height) {
      return SvgDocument.of(painting, width, height);
    }
  },
  /** One page of lines and text, with title and description; a px is 1/96 inch. */
  PDF("application/pdf") {
    @Override
    byte[] draw(Painting painting, int width, int height) {
      return PdfDocument.of(painting, width, height);
    }
  };

  /** The least width, px; at less the words do not fit. */
  public static final int LEAST_WIDTH = 320;

  /** The least height, px. */
  public static final int LEAST_HEIGHT = 240;

  /** The greatest width and the greatest height, px. */
  public static final int GREATEST_SIDE = 4096;

  /** The greatest width times height, px. */
  public static final int GREATEST_AREA = 8_000_000;

  private final String mediaType;

  ChartImage(String mediaType) {
    this.mediaType = mediaType;
  }

  /** The media type, such as {@code image/png}. */
  public String mediaType() {
    return mediaType;
  }

  /**
   * Draws a chart.
   *
   * @param chart what to show
   * @param axis what runs along the horizontal axis
   * @param width exactly, from {@value #LEAST_WIDTH} to {@value #GREATEST_SIDE} px
   * @param height exactly, from {@value #LEAST_HEIGHT} to {@value #GREATEST_SIDE} px; width times
   *     height is at most {@value #GREATEST_AREA}
   * @throws IllegalArgumentException for a size outside these
   */
  public byte[] render(ControlChart chart, Axis axis, int width, int height) {
    return render(new ChartPainter(chart, axis), width, height);
  }

  /**
   * Draws a capability.
   *
   * @param chart what to show
   * @param width as of a control chart
   * @param height as of a control chart
   * @throws IllegalArgumentException for a size outside these
   */
  public byte[] render(CapabilityChart chart, int width, int height) {
    return render(new CapabilityPainter(chart), width, height);
  }

  private byte[] render(Painting painting, int width, int height) {
    checkSide("width", width, LEAST_WIDTH);
    checkSide("height", height, LEAST_HEIGHT);
    if ((long) width * height > GREATEST_AREA) {
      throw new IllegalArgumentException(
          ("A picture of %d x %d has more than %d million pixels: ask for a smaller width or"
                  + " height, or for SVG, which can be enlarged.")
              .formatted(width, height, GREATEST_AREA / 1_000_000));
    }
    return draw(painting, width, height);
  }

  abstract byte[] draw(Painting painting, int width, int height);

  private static void checkSide(String side, int pixels, int least) {
    if (pixels < least || pixels > GREATEST_SIDE) {
      throw new IllegalArgumentException(
          "The %s of a picture must be from %d to %d pixels, not %d."
              .formatted(side, least, GREATEST_SIDE, pixels));
    }
  }

  private static byte[] encode(BufferedImage image) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      if (!ImageIO.write(image, "png", out)) {
        throw new IllegalStateException("this Java cannot write PNG");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }
}
