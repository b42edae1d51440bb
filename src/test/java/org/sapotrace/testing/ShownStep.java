package org.sapotrace.testing;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A command that a document shows in a console block, with the answer that it shows. An ellipsis in
 * an answer stands for whatever is there; white space does not count, nor do digits of a number
 * behind the ninth, which are left to rounding.
 *
 * @param document where it is shown
 * @param answer empty where none is shown
 */
public record ShownStep(Path document, String command, String answer) {

  private static final String ADDRESS = "http://127.0.0.1:8080";
  private static final Pattern BLOCK = Pattern.compile("```console\n(.*?)```", Pattern.DOTALL);
  private static final Pattern WORD = Pattern.compile("'([^']*)'|(\\S+)");
  private static final Pattern LONG_NUMBER = Pattern.compile("\\d+\\.\\d{6,}(E-?\\d+)?");

  /** All that a document shows, in its order. */
  public static List<ShownStep> in(Path document) throws IOException {
    List<ShownStep> steps = new ArrayList<>();
    Matcher block = BLOCK.matcher(Files.readString(document));
    while (block.find()) {
      for (String shown : block.group(1).split("(?m)^\\$ ")) {
        if (!shown.isBlank()) {
          int end = endOfCommand(shown);
          steps.add(new ShownStep(document, shown.substring(0, end), shown.substring(end)));
        }
      }
    }
    return steps;
  }

  /** A command ends with the first line that neither goes on nor lies within quotes. */
  private static int endOfCommand(String shown) {
    boolean quoted = false;
    for (int i = 0; i < shown.length(); i++) {
      char c = shown.charAt(i);
      quoted ^= c == '\'';
      if (c == '\n' && !quoted && shown.charAt(i - 1) != '\\') {
        return i;
      }
    }
    return shown.length();
  }

  /** What the few options of curl that the documents use do. */
  public byte[] send(URI service) throws Exception {
    String method = "GET";
    HttpRequest.Builder request = HttpRequest.newBuilder();
    HttpRequest.BodyPublisher body = HttpRequest.BodyPublishers.noBody();
    List<String> words = words(command);
    assertThat(words.get(0)).isEqualTo("curl");
    for (int i = 1; i < words.size(); i++) {
      String word = words.get(i);
      switch (word) {
        case "-X" -> method = words.get(++i);
        case "-H" -> request.headers(words.get(++i).split(": ", 2));
        case "-d" -> body = HttpRequest.BodyPublishers.ofString(words.get(++i));
        case "--data-binary" ->
            body = HttpRequest.BodyPublishers.ofFile(Path.of(words.get(++i).substring(1)));
        case "-o" -> i++;
        default -> {
          assertThat(word).startsWith(ADDRESS);
          request.uri(service.resolve(word.substring(ADDRESS.length())));
        }
      }
    }
    return HttpClient.newHttpClient()
        .send(request.method(method, body).build(), HttpResponse.BodyHandlers.ofByteArray())
        .body();
  }

  private static List<String> words(String command) {
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(command.replace("\\\n", " "));
    while (word.find()) {
      words.add(word.group(1) == null ? word.group(2) : word.group(1));
    }
    return words;
  }

  /** Refuses an answer that is not the one shown. */
  public void assertAnswered(byte[] bytes) {
    String answered = new String(bytes, UTF_8);
    String actual = plain(answered);
    String[] pieces = plain(answer).split("…", -1);
    int at = 0;
    for (int i = 0; i < pieces.length; i++) {
      int found = actual.indexOf(pieces[i], at);
      assertThat(found)
          .withFailMessage(
              "After%n%s%n%s shows%n%s%nand the service answers%n%s",
              command, document, pieces[i], answered)
          .isNotNegative();
      if (i == 0) {
        assertThat(found).as("beginning of the answer to %s", command).isZero();
      }
      at = found + pieces[i].length();
    }
    if (!pieces[pieces.length - 1].isEmpty()) {
      assertThat(actual).endsWith(pieces[pieces.length - 1]);
    }
  }

  private static String plain(String answer) {
    return LONG_NUMBER
        .matcher(answer.replaceAll("\\s", ""))
        .replaceAll(number -> new BigDecimal(number.group()).round(new MathContext(9)).toString());
  }
}
