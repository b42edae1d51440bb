package org.sapotrace.chartimage;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.controlchart.ControlChart;

/** Writes every sample at three sizes to {@code target/pictures}, to be looked at. */
final class PictureGallery {

  static final int[][] SIZES = {{600, 360}, {1000, 560}, {1600, 900}};

  private PictureGallery() {}

  public static void main(String[] arguments) throws IOException {
    Path folder = Files.createDirectories(Path.of("target", "pictures"));
    for (int[] size : SIZES) {
      for (Map.Entry<String, ControlChart> chart : SampleCharts.all().entrySet()) {
        for (ChartImage form : ChartImage.values()) {
          for (Axis axis : Axis.values()) {
            byte[] picture = form.render(chart.getValue(), axis, size[0], size[1]);
            String name = chart.getKey() + (axis == Axis.TIME ? "" : "-" + axis.id());
            Files.write(folder.resolve(file(name, size[0], form)), picture);
          }
        }
      }
      for (Map.Entry<String, CapabilityChart> chart : SampleCapabilities.all().entrySet()) {
        for (ChartImage form : ChartImage.values()) {
          byte[] picture = form.render(chart.getValue(), size[0], size[1]);
          Files.write(folder.resolve(file(chart.getKey(), size[0], form)), picture);
        }
      }
    }
  }

  private static String file(String name, int width, ChartImage form) {
    return name + "-" + width + "." + form.name().toLowerCase(Locale.ROOT);
  }
}
