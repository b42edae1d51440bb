package org.sapotrace.architecture;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The files of the repository, read as text; Git is not asked, since a copy may come without it.
 */
class RepositoryTest {

  private static final Path TOP = Path.of("");

  /** What a build, an editor or Git leaves behind; .gitignore names the same. */
  private static final Set<String> NOT_OURS =
      Set.of("target", ".git", ".idea", ".vscode", ".settings", ".classpath", ".project");

  private static final Set<String> TOP_LEVEL =
      Set.of(
          "README.md", "DEVELOPERS.md", "LICENSE", "pom.xml", "src", "openapi", "docker", "docs");

  private static final Map<Path, String> TEXTS = new TreeMap<>();

  @BeforeAll
  static void read() throws IOException {
    Files.walkFileTree(
        TOP,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path directory, BasicFileAttributes attributes) {
            return isOurs(directory) ? FileVisitResult.CONTINUE : FileVisitResult.SKIP_SUBTREE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
              throws IOException {
            byte[] content = Files.readAllBytes(file);
            if (isOurs(file) && isText(content)) {
              TEXTS.put(file, new String(content, UTF_8));
            }
            return FileVisitResult.CONTINUE;
          }
        });
  }

  @Test
  void everyKindOfFileIsRead() {
    assertThat(TEXTS)
        .containsKeys(
            Path.of("pom.xml"),
            Path.of(".ci", "run"),
            Path.of("src/main/resources/application.properties"),
            Path.of("src/main/java/org/sapotrace/package-info.java"));
  }

  @Test
  void theTopLevelHoldsNothingElse() throws IOException {
    try (Stream<Path> top = Files.list(TOP)) {
      assertThat(
              top.map(Path::toString)
                  .filter(name -> !name.startsWith(".") && !NOT_OURS.contains(name)))
          .isSubsetOf(TOP_LEVEL);
    }
  }

  @Test
  void namesNoRegistry() {
    // Where packages are fetched from is for whoever builds to say.
    assertThat(
            linesWith(
                "repo1?\\.maven\\.|central\\.sonatype|oss\\.sonatype|registry\\.(npmjs|yarnpkg)"
                    + "|files\\.pythonhosted|pypi\\.(org|python)|(docker|ghcr|quay|gcr)\\.io"
                    + "|proxy\\.golang|static\\.crates|index\\.crates"))
        .isEmpty();
  }

  @Test
  void namesNoPathOfOneMachine() {
    assertThat(linesWith("(?<![\\w.$}/-])/(work|tmp|root|home/\\w|Users/\\w)\\b")).isEmpty();
  }

  @Test
  void leavesNothingUndone() {
    assertThat(linesWith("\\b(TO[D]O|FIX[M]E)\\b|@Dis[a]bled\\b")).isEmpty();
  }

  @Test
  void everyPromiseOfTheOperationsNamesATestThatIsThere() {
    List<String> named =
        Pattern.compile("`(\\w+)#(\\w+)`")
            .matcher(TEXTS.get(Path.of("docs", "operations.md")))
            .results()
            .filter(test -> !isThere(test.group(1) + ".java", test.group(2)))
            .map(MatchResult::group)
            .toList();
    assertThat(named).isEmpty();
    assertThat(TEXTS.get(Path.of("docs", "operations.md")).lines())
        .filteredOn(line -> line.startsWith("| ") && line.contains("IT#"))
        .isNotEmpty();
  }

  private static boolean isThere(String file, String test) {
    return TEXTS.entrySet().stream()
        .filter(each -> each.getKey().endsWith(file))
        .anyMatch(each -> each.getValue().contains("void " + test + "("));
  }

  private static List<String> linesWith(String pattern) {
    Pattern sought = Pattern.compile(pattern);
    List<String> found = new ArrayList<>();
    TEXTS.forEach(
        (file, text) ->
            text.lines()
                .filter(line -> sought.matcher(line).find())
                .forEach(line -> found.add(file + ": " + line)));
    return found;
  }

  private static boolean isOurs(Path path) {
    String name = path.getFileName().toString();
    return !NOT_OURS.contains(name) && !name.endsWith(".iml");
  }

  private static boolean isText(byte[] content) {
    for (byte each : content) {
      if (each == 0) {
        return false;
      }
    }
    return true;
  }
}
