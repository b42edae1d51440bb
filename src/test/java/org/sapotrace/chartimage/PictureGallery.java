package org.sapotrace.chartimage;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.sapotrace.controlchart.ControlChart;

/** Writes every sample chart at three sizes to {@code target/pictures}, to be looked at. */
final class PictureGallery {

  static final int[][] SIZES = {{600, 360}, {1000, 560}, {1600, 900}};

  private PictureGallery() {}

  public static void main(String[] arguments) throws IOException {
    Path folder = Files.createDirectories(Path.of("target", "pictures"));
    for (Map.Entry<String, ControlChart> chart : SampleCharts.all().entrySet()) {
      for (int[] size : SIZES) {
        Files.write(
            folder.resolve(chart.getKey() + "-" + size[0] + "-sequence.png"),
            ChartImage.PNG.render(chart.getValue(), Axis.SEQUENCE, size[0], size[1]));
        for (ChartImage form : ChartImage.values()) {
          byte[] picture = form.render(chart.getValue(), Axis.TIME, size[0], size[1]);
          String ending = "-" + size[0] + "." + form.name().toLowerCase(Locale.ROOT);
          Files.write(folder.resolve(chart.getKey() + ending), picture);
        }
      }
    }
  }
}
