package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;
import org.sapotrace.testing.ShownStep;

/**
 * The README's walk through, run against the packaged service: each command that it shows, with the
 * answer that it shows.
 */
class WalkthroughIT {

  private static final Path README = Path.of("README.md");
  private static final Path PICTURE = Path.of("docs", "washed-fuel.png");

  @Test
  void answersAsTheReadmeSays(@TempDir Path directory) throws Exception {
    List<ShownStep> steps = ShownStep.in(README);
    assertThat(steps).hasSizeGreaterThan(5);
    try (RunningService service = Setup.on(directory).start()) {
      for (ShownStep step : steps) {
        byte[] answer = step.send(service.baseUrl());
        if (step.answer().isBlank()) {
          assertSamePicture(answer);
        } else {
          step.assertAnswered(answer);
        }
      }
    }
  }

  private static void assertSamePicture(byte[] answer) throws IOException {
    Path made = Path.of("target", "walkthrough", "washed-fuel.png");
    Files.createDirectories(made.getParent());
    Files.write(made, answer);
    BufferedImage now = ImageIO.read(new ByteArrayInputStream(answer));
    BufferedImage shown = ImageIO.read(PICTURE.toFile());
    assertThat(pixels(now))
        .withFailMessage(
            "%s is no longer what the service draws: compare it with %s", PICTURE, made)
        .isEqualTo(pixels(shown));
  }

  private static int[] pixels(BufferedImage image) {
    return image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
  }
}
