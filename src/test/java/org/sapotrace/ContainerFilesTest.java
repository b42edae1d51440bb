package org.sapotrace;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The container files, read: no engine runs them here. */
class ContainerFilesTest {

  private static final Path DOCKERFILE = Path.of("docker", "Dockerfile");
  private static final Path COMPOSE = Path.of("docker", "compose.yaml");

  private static List<String> dockerfile;
  private static JsonNode compose;

  @BeforeAll
  static void read() throws IOException {
    String joined = Files.readString(DOCKERFILE).replaceAll("\\\\\\n\\s*", "");
    dockerfile = joined.lines().filter(line -> !line.isBlank() && !line.startsWith("#")).toList();
    compose = new YAMLMapper().readTree(COMPOSE.toFile());
  }

  @Test
  void copiesOnlyWhatTheRepositoryHolds() {
    List<String> sources =
        instructions("COPY")
            .filter(copy -> !copy.startsWith("--from="))
            .flatMap(copy -> Arrays.stream(copy.split(" ")).limit(copy.split(" ").length - 1))
            .toList();
    assertThat(sources)
        .contains("pom.xml", "src/")
        .allSatisfy(path -> assertThat(Path.of(path)).exists());
  }

  @Test
  void takesTheServiceFromWhereTheBuildPutsIt() {
    assertThat(dockerfile).contains("COPY --from=build /build/target/quarkus-app/ ./");
  }

  @Test
  void buildsAndRunsInSeparateStages() {
    assertThat(instructions("FROM")).hasSize(2);
    assertThat(dockerfile.get(0)).endsWith(" AS build");
  }

  @Test
  void runsAsANumberedUserThatIsNotRoot() {
    assertThat(last("USER")).matches("[1-9][0-9]*:[1-9][0-9]*");
  }

  @Test
  void isToldToEndBySigtermAndHearsIt() {
    assertThat(last("STOPSIGNAL")).isEqualTo("SIGTERM");
    // The exec form: with the shell form the signal ends the shell and never reaches Java.
    assertThat(last("ENTRYPOINT")).startsWith("[\"java\"").endsWith("\"quarkus-run.jar\"]");
  }

  @Test
  void isFoundAliveByItsLivenessCheck() {
    assertThat(last("HEALTHCHECK")).contains("/q/health/live");
  }

  @Test
  void bringsTheFontLibrariesThatDrawingNeeds() {
    assertThat(instructions("RUN")).anyMatch(run -> run.contains("fontconfig libfreetype6"));
  }

  @Test
  void namesAVersionOfEachImageAndNoRegistry() {
    Stream<String> run =
        Stream.of("sapotrace", "database").map(name -> service(name).path("image").asText());
    Stream<String> base = instructions("FROM").map(from -> from.split(" ")[0]);
    assertThat(Stream.concat(run, base))
        .hasSize(4)
        .allMatch(image -> image.matches("[a-z-]+:[0-9].*"));
  }

  @Test
  void keepsTheDatabaseOnLoopbackOfTheMachine() {
    assertThat(service("database").path("ports"))
        .hasSize(1)
        .allSatisfy(port -> assertThat(port.asText()).startsWith("127.0.0.1:"));
  }

  @Test
  void keepsTheServiceOnLoopbackOfTheMachine() {
    assertThat(service("sapotrace").path("network_mode").asText()).isEqualTo("host");
    assertThat(service("sapotrace").path("environment").has("QUARKUS_HTTP_HOST")).isFalse();
  }

  @Test
  void bringsNoPasswordOfItsOwn() {
    String required = "${SAPOTRACE_DATABASE_PASSWORD:?";
    assertThat(service("sapotrace").at("/environment/QUARKUS_DATASOURCE_PASSWORD").asText())
        .startsWith(required);
    assertThat(service("database").at("/environment/POSTGRES_PASSWORD").asText())
        .startsWith(required);
  }

  @Test
  void startsTheServiceOnAHealthyDatabaseOnly() {
    assertThat(service("sapotrace").at("/depends_on/database/condition").asText())
        .isEqualTo("service_healthy");
    assertThat(service("database").at("/healthcheck/test/1").asText()).isEqualTo("pg_isready");
  }

  @Test
  void keepsTheDataInANamedVolume() {
    assertThat(compose.path("volumes").has("database")).isTrue();
    assertThat(service("database").path("volumes").get(0).asText())
        .isEqualTo("database:/var/lib/postgresql");
  }

  @Test
  void connectsTheServiceToThePortThatTheDatabaseIsPublishedOn() {
    String published = service("database").path("ports").get(0).asText();
    String address = published.substring(0, published.lastIndexOf(':'));
    assertThat(service("sapotrace").at("/environment/QUARKUS_DATASOURCE_JDBC_URL").asText())
        .isEqualTo("jdbc:postgresql://" + address + "/sapotrace");
  }

  private static JsonNode service(String name) {
    return compose.path("services").path(name);
  }

  private static Stream<String> instructions(String name) {
    return dockerfile.stream()
        .filter(line -> line.startsWith(name + " "))
        .map(line -> line.substring(name.length() + 1));
  }

  private static String last(String name) {
    return instructions(name).reduce((first, second) -> second).orElseThrow();
  }
}
