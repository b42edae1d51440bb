package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** The packaged service on the oldest and the newest Java that it is made for. */
class OtherJavaIT {

  @TempDir Path directory;

  @ParameterizedTest
  @ValueSource(ints = {17, 25})
  void runsOnJava(int version) {
    Path java =
        home(version)
            .orElseGet(
                () ->
                    abort(
                        "No Java %d found: install one below /usr/lib/jvm, or name it in JAVA_%d_HOME."
                            .formatted(version, version)));
    try (RunningService service = Setup.on(directory).withJava(java).start()) {
      assertThat(service.get("/q/health/ready").body()).contains("UP");
      assertThat(service.output()).doesNotContain("ERROR");
    }
  }

  private static Optional<Path> home(int version) {
    Stream<Path> named =
        Stream.ofNullable(System.getenv("JAVA_" + version + "_HOME")).map(Path::of);
    return Stream.concat(named, installed()).filter(home -> versionOf(home) == version).findFirst();
  }

  private static Stream<Path> installed() {
    try (Stream<Path> homes = Files.list(Path.of("/usr/lib/jvm"))) {
      return homes.toList().stream();
    } catch (IOException none) {
      return Stream.empty();
    }
  }

  /** The version that a Java's release file states, such as JAVA_VERSION="17.0.15"; or 0. */
  private static int versionOf(Path home) {
    try (Stream<String> release = Files.lines(home.resolve("release"))) {
      return release
          .filter(line -> line.startsWith("JAVA_VERSION="))
          .map(line -> line.replaceAll("[^0-9.]", "").split("\\.")[0])
          .mapToInt(Integer::parseInt)
          .findFirst()
          .orElse(0);
    } catch (IOException notAJava) {
      return 0;
    }
  }
}
