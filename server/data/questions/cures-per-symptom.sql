-- What cured each symptom of a board before: at which places returned jobs with the symptom put another part, of how many
-- such jobs. A job that a later one with the same symptom names as the one it came back from cured nothing.
-- Standard SQL.
WITH told AS (
  SELECT j.shop, j.log_no, j.job, j.board, j.stage, j.comeback_of, s.symptom
  FROM jobs AS j
  JOIN symptoms AS s ON s.shop = j.shop AND s.log_no = j.log_no
  WHERE j.board IS NOT NULL
),
cured AS (
  SELECT t.shop, t.log_no, t.board, t.symptom
  FROM told AS t
  WHERE t.stage = 'returned'
    AND NOT EXISTS (
      SELECT 1 FROM told AS c
      WHERE c.shop = t.shop AND c.board = t.board AND c.symptom = t.symptom AND c.comeback_of = t.job
    )
),
counted AS (SELECT board, symptom, COUNT(*) AS jobs FROM cured GROUP BY board, symptom),
replaced AS (SELECT DISTINCT shop, log_no, ref FROM work WHERE replaced AND ref IS NOT NULL)
SELECT c.board, c.symptom, r.ref, COUNT(*) AS cured, n.jobs
FROM cured AS c
JOIN replaced AS r ON r.shop = c.shop AND r.log_no = c.log_no
JOIN counted AS n ON n.board = c.board AND n.symptom = c.symptom
GROUP BY c.board, c.symptom, r.ref, n.jobs
ORDER BY 1, 2, 4 DESC, 3
