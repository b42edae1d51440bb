package org.sapotrace.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sapotrace.http.Scope;
import org.sapotrace.refusal.Refusal;

class PersonTest {

  private static final String ADDRESS = "https://accounts.plant.example/plant";
  private static final AccountSettings.Issuer ISSUER =
      new AccountSettings.Issuer(ADDRESS, "bench", "roles", null);
  private static final AccountSettings.Issuer WITH_LINES =
      new AccountSettings.Issuer(ADDRESS, "bench", "roles", "lines");

  private static Person holding(String... roles) {
    return Person.of(ISSUER, "0f1d", List.of(roles), List.of());
  }

  @Test
  void mayWhatItsTokenNamesAndNothingElse() {
    Person person = holding("sapotrace:record", "elsewhere:administer", "sapotrace:rule");

    assertThat(person.scopes()).containsExactly(Scope.RECORD);
    assertThat(person.may(Scope.RECORD)).isTrue();
    assertThat(person.may(Scope.READ)).isFalse();
    assertThat(holding("sapotrace:administer").may(Scope.REVIEW)).isTrue();
  }

  @Test
  void isRefusedWithoutAScope() {
    assertThatThrownBy(() -> holding("administer", "sapotrace:Read", "sapotrace:"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("may do nothing here");
  }

  /** The digest is what coreutils makes of it: printf '%s\0%s' ISSUER SUBJECT | sha256sum. */
  @Test
  void isKnownByTheDigestOfIssuerAndSubject() {
    assertThat(holding("sapotrace:read").id()).isEqualTo("person-2c11a8608f90af8fe22f9ee8dca5caa4");
  }

  @Test
  void isNotToldApartByWhereTheSubjectBegins() {
    AccountSettings.Issuer longer =
        new AccountSettings.Issuer(ADDRESS + "0", "bench", "roles", null);
    assertThat(Person.of(longer, "f1d", List.of("sapotrace:read"), List.of()).id())
        .isNotEqualTo(holding("sapotrace:read").id());
  }

  @Test
  void reachesEveryLineUnlessLinesAreToldApart() {
    List<String> read = List.of("sapotrace:read");
    assertThat(Person.of(ISSUER, "0f1d", read, List.of("harbour")).reach()).isNull();
    assertThat(Person.of(WITH_LINES, "0f1d", read, List.of("harbour")).reach())
        .containsExactly("harbour");
    assertThat(Person.of(WITH_LINES, "0f1d", read, List.of("harbour", "*")).reach()).isNull();
    assertThatThrownBy(() -> Person.of(WITH_LINES, "0f1d", read, List.of()))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("may touch no line");
  }

  @Test
  void administersEveryLineOrNone() {
    List<String> all = List.of("sapotrace:administer", "sapotrace:read");
    assertThat(Person.of(WITH_LINES, "0f1d", all, List.of("*")).may(Scope.ADMINISTER)).isTrue();
    assertThatThrownBy(() -> Person.of(WITH_LINES, "0f1d", all, List.of("harbour")))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("administers");
  }
}
