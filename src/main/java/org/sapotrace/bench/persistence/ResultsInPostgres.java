package org.sapotrace.bench.persistence;

import static java.util.stream.Collectors.groupingBy;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.Session;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.StandardisedTitrant;
import org.sapotrace.bench.Throughput;
import org.sapotrace.bench.Titration;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.CanonicalJson;
import org.sapotrace.ledger.Ledger;

@ApplicationScoped
class ResultsInPostgres implements Results, PanacheRepositoryBase<ResultEntity, ResultEntity.Key> {

  private static final Sort IN_ORDER = Sort.by("sampledAt").and("key.id");

  // The property that tells the kinds of entry apart in the stored JSON.
  private static final String KIND = "kind";
  private static final Map<String, Class<? extends Entry>> KINDS =
      Map.of(
          "titration", Titration.class,
          "measured-elsewhere", MeasuredElsewhere.class,
          "standardised-titrant", StandardisedTitrant.class,
          "batch-removal", BatchRemoval.class);

  private final EntityManager entities;
  private final ResultsInBulk bulk;
  private final ObjectMapper json;
  private final Ledger ledger;

  ResultsInPostgres(EntityManager entities, ResultsInBulk bulk, ObjectMapper json, Ledger ledger) {
    this.entities = entities;
    this.bulk = bulk;
    // What is null is left out, and read back as null: a third of a plain result would be that.
    this.json = json.copy().setDefaultPropertyInclusion(JsonInclude.Include.NON_NULL);
    this.ledger = ledger;
  }

  @Override
  public void addAll(List<RecordedResult> some) {
    if (!some.isEmpty()) {
      UUID stream = some.get(0).stream();
      bulk.insert(stream, some.stream().map(ResultsInPostgres::toEntity).toList());
      // On all processors, as writing JSON takes longer than anything else that is done here.
      List<Written> first =
          some.parallelStream().map(result -> write(result, result.latest())).toList();
      for (int i = 0; i < first.size(); i++) {
        enter(some.get(i), first.get(i), Act.RESULT_RECORDED);
      }
      bulk.insertFirst(stream, first.stream().map(Written::revision).toList());
    }
  }

  private static ResultEntity toEntity(RecordedResult result) {
    ResultEntity entity = new ResultEntity();
    entity.key = new ResultEntity.Key(result.stream(), result.id());
    fill(entity, result);
    return entity;
  }

  @Override
  public void add(RecordedResult result) {
    persist(toEntity(result));
    result.revisions().forEach(revision -> add(result, revision, Act.RESULT_RECORDED));
  }

  @Override
  public void revise(RecordedResult result) {
    ResultEntity entity = findById(new ResultEntity.Key(result.stream(), result.id()));
    fill(entity, result);
    add(result, result.latest(), ResultEntry.act(result));
  }

  /** Sets what is looked for by the latest revision. */
  private static void fill(ResultEntity entity, RecordedResult result) {
    RecordedResult.Revision latest = result.latest();
    Throughput throughput = latest.withdrawn() ? null : latest.entered().throughput();
    entity.batch = result.batch();
    entity.sampledAt = result.sampledAt();
    entity.titrantLot = latest.entered().titrantLot();
    entity.throughputLitres = throughput == null ? null : throughput.litres();
    entity.throughputBedVolumes = throughput == null ? null : throughput.bedVolumes();
  }

  private void add(RecordedResult result, RecordedResult.Revision revision, Act act) {
    Written written = write(result, revision);
    entities.persist(written.revision);
    enter(result, written, act);
  }

  private void enter(RecordedResult result, Written written, Act act) {
    ledger.enter(result.stream(), act, result.id().toString(), written.entry);
  }

  @Override
  public Optional<UUID> streamOf(UUID result) {
    return entities
        .createQuery("select key.streamId from ResultEntity where key.id = :id", UUID.class)
        .setParameter("id", result)
        .getResultStream()
        .findFirst();
  }

  @Override
  public Optional<RecordedResult> result(UUID id) {
    return find("key.id", id).list().stream()
        .findFirst()
        .map(entity -> toResult(entity, revisions(entity.key.streamId(), List.of(id))));
  }

  @Override
  public Optional<Titration> titrationBefore(UUID stream, Instant sampledAt) {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(
            """
            select v.* from result r
            join result_revision v on v.stream_id = r.stream_id and v.result_id = r.id
            where r.stream_id = :stream and r.sampled_at < :before and not v.withdrawn
              and v.revision = (select max(revision) from result_revision
                where stream_id = r.stream_id and result_id = r.id)
              and v.entered ->> 'kind' = 'titration'
            order by r.sampled_at desc, r.id desc limit 1
            """,
            RevisionEntity.class)
        .setParameter("stream", stream)
        .setParameter("before", sampledAt)
        .getResultStream()
        .findFirst()
        .map(revision -> (Titration) toRevision(revision).entered());
  }

  /** Reads no more of the JSON than it tells: this is asked for every titration with a lot. */
  @Override
  public List<Found> found(UUID stream) {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(
            """
            select r.sampled_at, v.value,
              cast(v.determination -> 'result' ->> 'standardUncertainty' as double precision),
              cast(v.determination -> 'result' ->> 'effectiveDegreesOfFreedom' as double precision)
            from result r join result_revision v on v.stream_id = r.stream_id and v.result_id = r.id
            where r.stream_id = :stream and not v.withdrawn and v.revision = (select max(revision)
              from result_revision where stream_id = r.stream_id and result_id = r.id)
            order by r.sampled_at, r.id
            """,
            Found.class)
        .setParameter("stream", stream)
        .getResultList();
  }

  @Override
  public List<UUID> streamsTitratedWith(String lot, Instant from) {
    return entities
        .createQuery(
            "select distinct key.streamId from ResultEntity where titrantLot = :lot"
                + " and sampledAt >= :from order by key.streamId",
            UUID.class)
        .setParameter("lot", lot)
        .setParameter("from", from)
        .getResultList();
  }

  @Override
  public boolean anyTitratedWith(String lot) {
    return find("titrantLot", lot).firstResultOptional().isPresent();
  }

  @Override
  public List<RecordedResult> select(UUID stream, Selection selection, int most) {
    StringBuilder query = new StringBuilder("key.streamId = :stream");
    Map<String, Object> parameters = new HashMap<>();
    parameters.put("stream", stream);
    if (selection.from() != null) {
      query.append(" and sampledAt >= :from");
      parameters.put("from", selection.from());
    }
    if (selection.to() != null) {
      query.append(" and sampledAt <= :to");
      parameters.put("to", selection.to());
    }
    Place after = selection.after();
    if (after != null) {
      query.append(" and (sampledAt, key.id) > (:time, :id)");
      parameters.put("time", after.sampledAt());
      parameters.put("id", after.result());
    }
    return toResults(stream, find(query.toString(), IN_ORDER, parameters).page(0, most).list());
  }

  @Override
  public List<RecordedResult> ofBatches(UUID stream, Collection<String> batches) {
    return toResults(
        stream,
        find("key.streamId = ?1 and batch in ?2", IN_ORDER, stream, List.copyOf(batches)).list());
  }

  @Override
  public List<String> batches(UUID stream) {
    return entities
        .createQuery(
            "select distinct batch from ResultEntity where key.streamId = :stream", String.class)
        .setParameter("stream", stream)
        .getResultList();
  }

  private List<RecordedResult> toResults(UUID stream, List<ResultEntity> some) {
    Map<UUID, List<RevisionEntity>> revisions =
        revisions(stream, some.stream().map(entity -> entity.key.id()).toList());
    return some.stream().map(entity -> toResult(entity, revisions)).toList();
  }

  private Map<UUID, List<RevisionEntity>> revisions(UUID stream, List<UUID> results) {
    return entities
        .createQuery(
            "from RevisionEntity where key.streamId = :stream and key.resultId in :results"
                + " order by key.revision",
            RevisionEntity.class)
        .setParameter("stream", stream)
        .setParameter("results", results)
        .getResultList()
        .stream()
        .collect(groupingBy(revision -> revision.key.resultId()));
  }

  /** A revision as it is stored, and what the ledger holds of it. */
  private record Written(RevisionEntity revision, ResultEntry entry) {}

  /** JSON is stored in its canonical form, by which the ledger seals it. */
  private Written write(RecordedResult result, RecordedResult.Revision revision) {
    RevisionEntity entity = new RevisionEntity();
    entity.key = new RevisionEntity.Key(result.stream(), result.id(), revision.revision());
    entity.recordedAt = revision.recordedAt();
    entity.reason = revision.reason();
    entity.withdrawn = revision.withdrawn();
    entity.value = revision.assessment().result().value();
    ObjectNode entered = json.valueToTree(revision.entered());
    entered.put(KIND, kind(revision.entered()));
    entity.entered = CanonicalJson.of(entered);
    entity.determination = CanonicalJson.of(json.<JsonNode>valueToTree(revision.assessment()));
    return new Written(entity, ResultEntry.of(revision, entered, entity));
  }

  private RecordedResult toResult(ResultEntity entity, Map<UUID, List<RevisionEntity>> revisions) {
    return new RecordedResult(
        entity.key.id(),
        entity.key.streamId(),
        entity.batch,
        entity.sampledAt,
        revisions.getOrDefault(entity.key.id(), List.of()).stream().map(this::toRevision).toList());
  }

  private RecordedResult.Revision toRevision(RevisionEntity entity) {
    try {
      return new RecordedResult.Revision(
          entity.key.revision(),
          entity.recordedAt,
          entity.reason,
          entity.withdrawn,
          toEntry((ObjectNode) json.readTree(entity.entered)),
          json.readValue(entity.determination, Assessment.class));
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("A stored result cannot be read", defect);
    }
  }

  private static String kind(Entry entry) {
    return KINDS.entrySet().stream()
        .filter(kind -> kind.getValue().isInstance(entry))
        .map(Map.Entry::getKey)
        .findFirst()
        .orElseThrow();
  }

  private Entry toEntry(ObjectNode entered) throws JsonProcessingException {
    String kind = entered.remove(KIND).asText();
    return json.treeToValue(entered, KINDS.get(kind));
  }
}
