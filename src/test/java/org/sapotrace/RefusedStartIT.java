package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.testing.RunningService;
import org.sapotrace.testing.RunningService.Setup;

/** What the packaged service says, in a sentence, when it is told to run as it does not. */
class RefusedStartIT {

  @TempDir Path directory;

  static Stream<Arguments> settings() {
    return Stream.of(
        arguments("SAPOTRACE_ACCESS", "none", "SAPOTRACE_ACCESS is \"none\""),
        arguments("SAPOTRACE_RATE_LIMIT_PER_MINUTE", "600", "set SAPOTRACE_ACCESS=keys"),
        arguments("SAPOTRACE_RATE_LIMIT_PER_MINUTE", "0", "set a whole number from 1 to"),
        arguments("QUARKUS_HTTP_HOST", "0.0.0.0", "nobody signs in"),
        arguments("QUARKUS_HTTP_HOST", "no.such.host.invalid", "nobody signs in"),
        arguments("QUARKUS_HTTP_PORT", "http", "QUARKUS_HTTP_PORT is \"http\""),
        arguments("QUARKUS_HTTP_PORT", "65536", "QUARKUS_HTTP_PORT is \"65536\""),
        arguments("SAPOTRACE_STANDARDISATION_VALID_FOR", "30 days", "set a duration above 0"),
        arguments("SAPOTRACE_FORECAST_HORIZON", "a week", "set a duration above 0"),
        arguments("SAPOTRACE_NOTICE_ALLOWED_HOSTS", "https://a.example", "is no host"),
        arguments("SAPOTRACE_NOTICE_RELAY", "maybe", "SAPOTRACE_NOTICE_RELAY is \"maybe\""),
        arguments("SAPOTRACE_PUBLIC_URL", "plant.example", "SAPOTRACE_PUBLIC_URL is \"plant"),
        arguments("SAPOTRACE_MQTT_URL", "broker.example", "SAPOTRACE_MQTT_URL is no address"),
        arguments(
            "SAPOTRACE_OIDC_ISSUER", "accounts.example", "SAPOTRACE_OIDC_ISSUER is no address"),
        arguments("SAPOTRACE_OIDC_AUDIENCE", "bench", "set SAPOTRACE_OIDC_ISSUER as well"),
        arguments("SAPOTRACE_DEMO", "yes", "set true, or leave it unset"),
        // Port 1 is reserved for a service that nobody runs: RFC 1078.
        arguments(
            "QUARKUS_DATASOURCE_JDBC_URL",
            "jdbc:postgresql://127.0.0.1:1/sapotrace",
            "The configured database cannot be used"));
  }

  @ParameterizedTest
  @MethodSource("settings")
  void refusesTheSetting(String name, String value, String sentence) {
    assertRefused(Setup.on(data()).withEnvironment(name, value), sentence);
  }

  @Test
  void refusesAccountsWhereNobodySignsIn() {
    assertRefused(
        Setup.on(data())
            .withEnvironment("SAPOTRACE_OIDC_ISSUER", "https://accounts.example")
            .withEnvironment("SAPOTRACE_OIDC_AUDIENCE", "bench"),
        "set SAPOTRACE_ACCESS=keys");
  }

  @Test
  void refusesAPortThatIsTaken() throws IOException {
    try (ServerSocket other = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      String port = String.valueOf(other.getLocalPort());
      assertRefused(
          Setup.on(data()).withEnvironment("QUARKUS_HTTP_PORT", port),
          "set QUARKUS_HTTP_PORT to another port");
    }
  }

  @Test
  void refusesAnArgumentThatItDoesNotKnow() {
    assertRefused(Setup.on(data()).withArguments("--port=1"), "\"--port=1\" is unknown");
  }

  @Test
  void refusesAMalformedAddressWithoutRepeatingItsPassword() {
    assertThat(
            assertRefused(
                Setup.on(data())
                    .withEnvironment(
                        "QUARKUS_DATASOURCE_JDBC_URL", "jdbc:postgres://h/d?password=s3cret"),
                "The configured database cannot be used"))
        .doesNotContain("s3cret");
  }

  @Test
  void putsItsDataWhereTheDesktopPutsIt() {
    // XDG Base Directory Specification: user-specific data files are under XDG_DATA_HOME.
    Path notADirectory = Path.of("pom.xml").toAbsolutePath();
    assertRefused(
        Setup.on(Path.of(""))
            .withEnvironment("SAPOTRACE_DATA_DIRECTORY", "")
            .withEnvironment("XDG_DATA_HOME", notADirectory.toString()),
        "The data directory " + notADirectory.resolve("sapotrace") + " cannot be used");
  }

  private Path data() {
    return directory.resolve("data");
  }

  private String assertRefused(Setup setup, String sentence) {
    try (RunningService service = setup.launch()) {
      assertThat(service.awaitExit()).isEqualTo(1);
      assertThat(service.output())
          .startsWith("Sapotrace does not start. ")
          .contains(sentence)
          .hasLineCount(1);
      assertThat(data()).doesNotExist();
      return service.output();
    }
  }
}
