package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import jdk.jshell.JShell;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.ShownStep;

/** The methods as they are written up: each is worked by hand, and then by the service. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class MethodsTest {

  private static final Path METHODS = Path.of("docs", "methods.md");

  /** A line such as {@code (2.10 - 0.10) * 304.45 = 608.9 mg/kg}. */
  private static final Pattern WORKED =
      Pattern.compile("(?m)^    (.+) = (-?[0-9.]+(?:e-?[0-9]+)?)(?: .*)?$");

  @TestHTTPResource("/")
  URI service;

  @Test
  void answersAsTheMethodsSay() throws Exception {
    List<ShownStep> steps = ShownStep.in(METHODS);
    assertThat(steps).hasSizeGreaterThan(10);
    for (ShownStep step : steps) {
      step.assertAnswered(step.send(service));
    }
  }

  /** By the Java shell, which knows nothing of the service. */
  @Test
  void worksOutAsWritten() throws IOException {
    List<MatchResult> lines = WORKED.matcher(Files.readString(METHODS)).results().toList();
    assertThat(lines).hasSizeGreaterThan(20);
    try (JShell shell = JShell.builder().executionEngine("local").build()) {
      shell.eval("import static java.lang.Math.*;");
      for (MatchResult line : lines) {
        BigDecimal shown = new BigDecimal(line.group(2));
        String worked = shell.eval("(double) (" + line.group(1) + ")").get(0).value();
        assertThat(new BigDecimal(worked).setScale(shown.scale(), RoundingMode.HALF_UP))
            .as(line.group())
            .isEqualTo(shown);
      }
    }
  }
}
