package org.sapotrace.architecture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** A package, or a feature with what lies beneath it, and the arrows that lead out of it. */
enum Part {
  // Pure: numbers in, numbers out.
  MEASURE(Kind.PURE),
  CHEMISTRY(Kind.PURE, MEASURE),
  CONTROLCHART(Kind.PURE, MEASURE),
  BASELINE(Kind.PURE, CONTROLCHART, MEASURE),
  CAPABILITY(Kind.PURE, BASELINE, CONTROLCHART, MEASURE),
  RUNLENGTH(Kind.PURE, CONTROLCHART, MEASURE),
  WASHMODEL(Kind.PURE, MEASURE),
  ATTRIBUTION(Kind.PURE),

  // Sends what it is given to elsewhere, and knows no word of it.
  WEBHOOK(Kind.SENDING),

  // How any package that is not pure refuses a request; each of them may import it.
  REFUSAL(Kind.BASE),

  // Features, each with a package rest and a package persistence beneath it.
  // At the bottom, so that each of the others may enter in it what it changes.
  LEDGER(Kind.FEATURE),
  PRODUCTLINE(Kind.FEATURE, CHEMISTRY, CONTROLCHART, LEDGER),
  MONITORING(
      Kind.FEATURE,
      PRODUCTLINE,
      CHEMISTRY,
      CAPABILITY,
      BASELINE,
      RUNLENGTH,
      CONTROLCHART,
      MEASURE,
      LEDGER),
  BENCH(Kind.FEATURE, PRODUCTLINE, MONITORING, CHEMISTRY, CONTROLCHART, MEASURE, LEDGER),
  TITRANT(Kind.FEATURE, BENCH, PRODUCTLINE, MONITORING, CHEMISTRY, CONTROLCHART, MEASURE, LEDGER),
  FORECAST(
      Kind.ANSWERS,
      TITRANT,
      BENCH,
      PRODUCTLINE,
      MONITORING,
      ATTRIBUTION,
      WASHMODEL,
      CHEMISTRY,
      CONTROLCHART,
      MEASURE),
  NOTICE(
      Kind.FEATURE,
      FORECAST,
      TITRANT,
      BENCH,
      MONITORING,
      PRODUCTLINE,
      CONTROLCHART,
      CHEMISTRY,
      MEASURE,
      LEDGER,
      WEBHOOK),

  // Adapters.
  HTTP(Kind.WEB),
  // A feature that knows HTTP: it tells the door who calls, and the lines who may touch them.
  ACCESS(Kind.FEATURE, HTTP, PRODUCTLINE, LEDGER),
  CHARTIMAGE(Kind.PICTURE, CAPABILITY, CONTROLCHART),
  REVIEW(
      Kind.PAPERS,
      CHARTIMAGE,
      TITRANT,
      BENCH,
      MONITORING,
      PRODUCTLINE,
      LEDGER,
      CAPABILITY,
      CONTROLCHART,
      CHEMISTRY,
      MEASURE),
  EMBEDDED(Kind.DATABASE),
  BACKUP(Kind.COPIES),
  PAGES(
      Kind.PAGES,
      HTTP,
      FORECAST,
      TITRANT,
      BENCH,
      MONITORING,
      PRODUCTLINE,
      CONTROLCHART,
      CHEMISTRY,
      MEASURE),
  MQTT(Kind.BROKER, HTTP, NOTICE, BENCH, MONITORING, CHEMISTRY),

  // Records an invented plant, as a client would.
  DEMONSTRATION(
      Kind.RECORDING, TITRANT, BENCH, MONITORING, PRODUCTLINE, CONTROLCHART, CHEMISTRY, MEASURE),

  // What is started: the package org.sapotrace itself.
  SAPOTRACE(
      Kind.START,
      BACKUP,
      EMBEDDED,
      HTTP,
      ACCESS,
      LEDGER,
      NOTICE,
      MQTT,
      FORECAST,
      TITRANT,
      WEBHOOK,
      DEMONSTRATION);

  static final String ROOT = "org.sapotrace";

  private final Kind kind;
  private final List<Part> arrows;

  Part(Kind kind, Part... arrows) {
    this.kind = kind;
    this.arrows = List.of(arrows);
  }

  /** Libraries that a package may import besides Java's own and the annotations for null. */
  enum Kind {
    PURE("org.hipparchus.."),
    BASE,
    FEATURE(
        "com.fasterxml.jackson.annotation",
        "io.quarkus.narayana.jta.runtime",
        "jakarta.enterprise..",
        "jakarta.transaction"),
    /** A feature that computes more than it stores. */
    ANSWERS(
        "com.fasterxml.jackson.annotation",
        "jakarta.enterprise..",
        "jakarta.transaction",
        "org.hipparchus.."),
    /** A feature that tells what others have on record, and stores nothing. */
    PAPERS("jakarta.enterprise..", "jakarta.transaction"),
    /** Calls features and stores nothing by itself. */
    RECORDING("jakarta.enterprise.."),
    REST(
        "com.fasterxml.jackson..",
        "jakarta.enterprise..",
        "jakarta.validation..",
        "jakarta.ws.rs..",
        "org.jboss.resteasy.."),
    PERSISTENCE(
        "com.fasterxml.jackson..",
        "io.quarkus..",
        "jakarta.enterprise..",
        "jakarta.persistence",
        "org.hibernate.."),
    WEB(
        "com.fasterxml.jackson..",
        "io.netty..",
        "io.quarkus..",
        "io.vertx..",
        "jakarta..",
        "org.hibernate",
        "org.jboss.resteasy.."),
    PAGES(
        "io.quarkus.qute",
        "io.quarkus.vertx.http.runtime.filters",
        "io.vertx..",
        "jakarta.enterprise..",
        "jakarta.inject",
        "jakarta.ws.rs..",
        "org.jboss.resteasy.."),
    /** Verifies tokens of an identity provider. */
    IDENTITY(
        "com.fasterxml.jackson..",
        "io.quarkus.logging",
        "io.quarkus.oidc..",
        "io.quarkus.security..",
        "io.quarkus.vertx.http.runtime.security",
        "io.smallrye.mutiny..",
        "io.vertx.ext.web",
        "jakarta.enterprise..",
        "org.jboss.logging",
        "org.jose4j.jwt.consumer"),
    SENDING(
        "io.vertx..", "jakarta.enterprise..", "jakarta.inject", "javax.crypto..", "javax.net.."),
    /** Speaks with a message broker. */
    BROKER(
        "com.fasterxml.jackson..",
        "io.netty.handler.codec.mqtt",
        "io.vertx..",
        "jakarta.enterprise..",
        "jakarta.persistence",
        "jakarta.transaction",
        "jakarta.validation..",
        "javax.net.."),
    PICTURE(
        "de.rototor.pdfbox.graphics2d",
        "javax..",
        "org.apache.batik..",
        "org.apache.pdfbox..",
        "org.knowm.xchart..",
        "org.w3c.dom"),
    DATABASE(
        "com.sun.security.auth.module",
        "io.zonky..",
        "org.apache.commons.compress..",
        "org.tukaani.xz"),
    COPIES("org.postgresql", "org.postgresql.copy"),
    START(
        "io.quarkus..",
        "io.vertx..",
        "jakarta..",
        "org.eclipse.microprofile..",
        "org.jboss.logging");

    private final List<String> libraries;

    Kind(String... libraries) {
      this.libraries = List.of(libraries);
    }
  }

  /**
   * All that a package may import.
   *
   * @param name of the package, without those beneath it
   * @param imports package identifiers of ArchUnit
   */
  record Allowance(String name, Set<String> imports) {
    @Override
    public String toString() {
      return name;
    }
  }

  /** What each package of the service may import; whatever is not listed is forbidden. */
  static List<Allowance> allowances() {
    return Arrays.stream(values()).flatMap(Part::packages).toList();
  }

  static List<String> pure() {
    return Arrays.stream(values()).filter(part -> part.kind == Kind.PURE).map(Part::path).toList();
  }

  private Stream<Allowance> packages() {
    List<Allowance> packages = new ArrayList<>(List.of(allowance("", kind)));
    if (kind == Kind.FEATURE || kind == Kind.ANSWERS || kind == Kind.PAPERS) {
      packages.add(allowance(".rest", Kind.REST));
    }
    if (kind == Kind.FEATURE || kind == Kind.ANSWERS) {
      packages.add(allowance(".persistence", Kind.PERSISTENCE));
    }
    if (this == ACCESS) {
      packages.add(allowance(".oidc", Kind.IDENTITY));
    }
    return packages.stream();
  }

  private Allowance allowance(String beneath, Kind where) {
    Set<String> imports = new TreeSet<>(where.libraries);
    // The root of the feature is open to what lies beneath it, and to those with an arrow to it.
    imports.addAll(List.of("java..", "org.jspecify.annotations", path(), path() + beneath));
    arrows.forEach(arrow -> imports.add(arrow.path()));
    if (kind != Kind.PURE) {
      imports.add(REFUSAL.path());
    }
    if (where == Kind.REST) {
      imports.add(HTTP.path());
    }
    if (this == LEDGER) {
      imports.addAll(List.of("javax.sql", "org.erdtman.jcs", "com.fasterxml.jackson.databind.."));
    }
    if (where == Kind.REST && this == MONITORING) {
      imports.add(CHARTIMAGE.path());
    }
    return new Allowance(path() + beneath, imports);
  }

  private String path() {
    return this == SAPOTRACE ? ROOT : ROOT + "." + name().toLowerCase(Locale.ROOT);
  }
}
